import { CANDELA_PER_M2, type LuminanceUnit } from './units';

/**
 * Screen luminance from illuminance (lx) and gain: L = E·G/π for a matt screen, the gain being the luminance
 * factor in the measured direction (CIE e-ILV 17-24-063 and 17-24-077).
 */
export function luminance(illuminance: number, gain: number, unit: LuminanceUnit = 'cd/m²'): number {
  return (illuminance * gain) / Math.PI / CANDELA_PER_M2[unit];
}
