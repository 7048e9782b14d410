import type { Step } from '../task';

/** Points above this part of the height are reached from a platform on many screens. */
const HIGH = 0.2;

/** The caution that matters at a point; the ones for everybody stand before the readings and under "Cautions". */
export function cautionAt({ v, light }: Pick<Step, 'v' | 'light'>): string {
  if (light === 'ambient' || light === 'black')
    return 'In the dark: mind cables, and light the floor before you walk.';
  if (v < HIGH) return 'High point: from a proper platform, not from a chair, and not alone.';
  return 'Stand aside of the beam, meter at arm’s length; never look into the lens.';
}
