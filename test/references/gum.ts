/** Worked examples of the GUM (JCGM 100:2008), annex H, as printed there and as the GTC and suncal packages carry them. */

/** H.3: readings of a thermometer and their corrections, °C; table H.6. */
export const H3 = {
  t: [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511],
  b: [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16],
  reference: 20,
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
