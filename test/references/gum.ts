/** Worked examples of the GUM (JCGM 100:2008), annex H, as printed there and as the GTC and suncal packages carry them. */

/** H.2: five simultaneous readings of a circuit; volts, amperes, radians. */
export const H2 = {
  voltage: [5.007, 4.994, 5.005, 4.99, 4.999],
  current: [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
  phase: [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
};

/** H.3: readings of a thermometer and their corrections, °C; table H.6. */
export const H3 = {
  t: [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511],
  b: [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16],
  reference: 20,
};

/** H.5: a voltage standard on ten days, five readings a day; volts; table H.9. */
export const H5 = {
  means: [
    10.000172, 10.000116, 10.000013, 10.000144, 10.000106, 10.000031, 10.00006, 10.000125, 10.000163,
    10.000041,
  ],
  sds: [60e-6, 77e-6, 111e-6, 101e-6, 67e-6, 93e-6, 80e-6, 73e-6, 88e-6, 86e-6],
  perDay: 5,
};

/** H.1: end gauge. Contributions to u_c(l) in nm with their degrees of freedom (table H.1). */
export const H1 = [
  { u: 25, dof: 18 },
  { u: 5.8, dof: 24 },
  { u: 3.9, dof: 5 },
  { u: 6.7, dof: 8 },
  { u: 2.9, dof: 50 },
  { u: 16.6, dof: 2 },
];
