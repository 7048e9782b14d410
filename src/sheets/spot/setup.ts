import type { MeterSetup } from '../runsetup';

/** Fewest and most units a spot check puts side by side. */
export const SPOT_UNITS = { min: 2, max: 12 } as const;

/** What the relative figures refer to. */
export type SpotReference = 'first' | 'best';
export const SPOT_REFERENCES: readonly SpotReference[] = ['first', 'best'];

/** Centre readings of several units at one place and one image size. */
export interface SpotSetup {
  readonly title: string;
  /** Two to twelve names, each once. */
  readonly units: readonly string[];
  readonly reference: SpotReference;
  /** Text that the random order is drawn from; undefined measures in the order listed. */
  readonly seed?: string;
  /** Whether the room's own light is read and taken off. */
  readonly ambient: boolean;
  readonly place: string;
  readonly measuredBy: string;
  /** ISO date; empty if not stated. */
  readonly date: string;
  readonly meter: MeterSetup;
}
