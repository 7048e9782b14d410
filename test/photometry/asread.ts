import type { Conversion } from '../../src/photometry/reading';

/** A display whose numbers are lux as they stand. */
export const AS_READ: Conversion = { unit: 'lx', range: 1, correction: 1, ambient: 0 };
