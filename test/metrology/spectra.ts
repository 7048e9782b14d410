import type { LightSource } from '../../src/metrology/run/input';

/*
 * What meters of a given f1′ read wrong, computed without any code of the project. V(λ) of CIE 1924 every 10 nm, from
 * memory; illuminant A as a Planckian radiator of 2848 K (c₂ 1.435·10⁷ nm K, as it was defined); f1′ and the mismatch
 * factor as ISO/CIE 19476 defines them (from memory).
 */
const V10 = [
  3.9e-5, 1.2e-4, 3.96e-4, 1.21e-3, 4e-3, 0.0116, 0.023, 0.038, 0.06, 0.09098, 0.13902, 0.20802, 0.323, 0.503,
  0.71, 0.862, 0.954, 0.99495, 0.995, 0.952, 0.87, 0.757, 0.631, 0.503, 0.381, 0.265, 0.175, 0.107, 0.061,
  0.032, 0.017, 0.00821, 0.004102, 0.002091, 0.001047, 5.2e-4, 2.492e-4, 1.2e-4, 6e-5, 3e-5, 1.499e-5,
];
type Spectrum = (nm: number) => number;
/** Straight lines of the logarithm between the tens. */
const V: Spectrum = (nm) => {
  const at = Math.min(V10.length - 2, Math.max(0, Math.floor((nm - 380) / 10)));
  const part = (nm - 380 - 10 * at) / 10;
  return V10[at]! ** (1 - part) * V10[at + 1]! ** part;
};
const A: Spectrum = (nm) =>
  (560 / nm) ** 5 * ((Math.exp(1.435e7 / 2848 / 560) - 1) / (Math.exp(1.435e7 / 2848 / nm) - 1));
const NM = Array.from({ length: 401 }, (_, i) => 380 + i);
const integral = (f: Spectrum) => NM.reduce((sum, nm) => sum + f(nm), 0);
const times = (f: Spectrum, g: Spectrum) => integral((nm) => f(nm) * g(nm));

const f1 = (s: Spectrum) => {
  const scale = times(A, V) / times(A, s);
  return integral((nm) => Math.abs(scale * s(nm) - V(nm))) / integral(V);
};
/** Factor by which a reading is to be multiplied. */
const correction = (s: Spectrum, light: Spectrum) =>
  (times(light, V) / times(light, s)) * (times(A, s) / times(A, V));

const FAMILIES: readonly ((d: number) => Spectrum)[] = [
  (d) => (nm) => V(nm) ** (1 + d / 30),
  (d) => (nm) => V(nm) ** (1 / (1 + d / 30)),
  (d) => (nm) => V(Math.min(780, nm + d)),
  (d) => (nm) => V(Math.max(380, nm - d)),
];
/** The meter of a family whose f1′ is as wanted. */
function meter(family: (d: number) => Spectrum, wanted: number): Spectrum {
  let [low, high] = [0, 30];
  for (let i = 0; i < 25; i++) {
    const middle = (low + high) / 2;
    if (f1(family(middle)) < wanted) low = middle;
    else high = middle;
  }
  return family(low);
}

const peak =
  (centre: number, width: number): Spectrum =>
  (nm) =>
    Math.exp(-0.5 * ((2.3548 * (nm - centre)) / width) ** 2);
const band =
  (from: number, to: number, light: Spectrum): Spectrum =>
  (nm) =>
    nm >= from && nm <= to ? light(nm) : 0;
/** An arc in mercury vapour: its lines on a ground; a phosphor: one broad hump. */
const arc: Spectrum = (nm) => 1 + 3 * peak(440, 15)(nm) + 4 * peak(546, 12)(nm) + 3 * peak(578, 12)(nm);
const phosphor = peak(560, 110);

/** Red, green and blue as such projectors show them (invented, of usual wavelengths and widths). */
const PRIMARIES: Readonly<Record<LightSource, readonly [Spectrum, Spectrum, Spectrum]>> = {
  lamp: [band(590, 700, arc), band(500, 575, arc), band(420, 490, arc)],
  'laser phosphor': [band(595, 700, phosphor), band(500, 580, phosphor), peak(455, 3)],
  LED: [peak(625, 18), peak(525, 33), peak(460, 20)],
  'RGB laser': [peak(638, 2), peak(525, 2), peak(450, 2)],
};
/** Parts of white, as in BT.709. */
const SHARES = [0.21, 0.72, 0.07] as const;
const F1S = [0.024, 0.06, 0.09] as const;
let meters: { readonly f1: number; readonly s: Spectrum }[] | undefined;

/** Relative error of a field's correction ÷ f1′, for meters of four families at three f1′. */
export function errorsPerF1(light: LightSource, field: 'white' | 'red' | 'green' | 'blue'): number[] {
  meters ??= FAMILIES.flatMap((family) => F1S.map((wanted) => ({ f1: wanted, s: meter(family, wanted) })));
  return meters.map(({ f1: index, s }) => {
    const factors = PRIMARIES[light].map((primary) => correction(s, primary));
    const white = 1 / SHARES.reduce((sum, share, i) => sum + share / factors[i]!, 0);
    return ({ white, red: factors[0]!, green: factors[1]!, blue: factors[2]! }[field] - 1) / index;
  });
}
