/**
 * What corrects the projector's light alone, as a formula without "=": its spectrum in this field, and that the sensor
 * stands nearer to the lens than the screen. The room's light is read without it, and is taken off before it. Black and the
 * checkerboard are read with the correction for white.
 */
export const lightOf = (stem: string) =>
  `${CORRECTED_AS_WHITE.has(stem) ? 'White' : stem}Spectral*SensorFactor`;

const CORRECTED_AS_WHITE: ReadonlySet<string> = new Set(['Black', 'Corner', 'Board']);
