import type { Raster } from './raster';

/** What a projector does to the pictures it is given. Illuminances in lx at the centre of the image, at full drive. */
export interface ProjectorOptions {
  readonly red: number;
  readonly green: number;
  readonly blue: number;
  /** Light added to white only, as by a clear segment or a fourth emitter: shown where all three are driven, 0 for none. */
  readonly added?: number;
  /** Factor on a picture that is one saturated colour all over, and on no other; 1 for none. */
  readonly boost?: number;
  /** Illuminance of a black picture. */
  readonly black?: number;
  /** Part of the centre's illuminance that reaches a place; u, v as fractions of the image. 1 everywhere by default. */
  readonly falloff?: (u: number, v: number) => number;
}

/** A simulated projector: hand it a picture, hold the meter somewhere, read lux. */
export interface Projector {
  /** Illuminance in lx at a place of the image. */
  lux(picture: Raster, u: number, v: number): number;
}

export function createProjector({
  red,
  green,
  blue,
  added = 0,
  boost = 1,
  black = 0,
  falloff = () => 1,
}: ProjectorOptions): Projector {
  return {
    lux: (picture, u, v) => {
      const [x, y] = [Math.floor(u * picture.width), Math.floor(v * picture.height)];
      const [r, g, b] = driveAt(picture, (y * picture.width + x) * 3);
      const primaries = red * r + green * g + blue * b;
      // White is what the three have in common; a saturated colour has none of it.
      const white = added * Math.min(r, g, b);
      const factor = isOneSaturatedColour(picture) ? boost : 1;
      return black + (primaries * factor + white) * falloff(u, v);
    },
  };
}

type Drive = readonly [number, number, number];

function driveAt({ rgb }: Raster, at: number): Drive {
  return [linear(rgb[at]!), linear(rgb[at + 1]!), linear(rgb[at + 2]!)];
}

/** Code value to light, 0 to 1 (IEC 61966-2-1, the sRGB curve; from memory). */
function linear(code: number): number {
  const signal = code / 255;
  return signal <= 0.04045 ? signal / 12.92 : ((signal + 0.055) / 1.055) ** 2.4;
}

/** Whether every pixel is the same and at least one channel, but not every one, is dark. */
function isOneSaturatedColour({ rgb }: Raster): boolean {
  const first = [...rgb.subarray(0, 3)];
  if (!first.includes(0) || first.every((value) => value === 0)) return false;
  return rgb.every((value, i) => value === first[i % 3]);
}
