/** Units that people type, and their exact size in SI units. */

/** Metres per unit. The foot is 0.3048 m and the inch 0.0254 m exactly (NIST SP 811, appendix B). */
export const METRES = { m: 1, cm: 0.01, mm: 0.001, ft: 0.3048, in: 0.0254 } as const;
export type LengthUnit = keyof typeof METRES;

/** Lux per unit of illuminance. One footcandle is one lumen per square foot: 1 ÷ 0.3048² lx (NIST SP 811, appendix B). */
export const LUX = { lx: 1, fc: 1 / 0.3048 ** 2 } as const;
export type IlluminanceUnit = keyof typeof LUX;

/** Candela per square metre per unit. One footlambert is 1 ÷ π candela per square foot (NIST SP 811, appendix B). */
export const CANDELA_PER_M2 = { 'cd/m²': 1, fL: 1 / (Math.PI * 0.3048 ** 2) } as const;
export type LuminanceUnit = keyof typeof CANDELA_PER_M2;

export const LENGTH_UNITS = Object.keys(METRES) as LengthUnit[];
export const ILLUMINANCE_UNITS = Object.keys(LUX) as IlluminanceUnit[];
export const LUMINANCE_UNITS = Object.keys(CANDELA_PER_M2) as LuminanceUnit[];
