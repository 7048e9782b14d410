import type { BatchReadings } from '../../procurement/batch/columns';
import { defaultRunSetup, type RunSetup, type UncertaintySetup } from '../runsetup';

/** Fewest and most units of one sheet. */
export const BATCH_UNITS = { min: 1, max: 5000 } as const;

/** Whether the room's own light is read once for all units, unit by unit, or not at all. */
export type BatchAmbient = 'none' | 'once' | 'by row';
export const BATCH_AMBIENTS: readonly BatchAmbient[] = ['once', 'by row', 'none'];

/** One line of a batch before its readings. */
export interface BatchUnit {
  readonly serial: string;
  readonly place?: string;
  /** Hours the light source has run. */
  readonly hours?: number;
  /** ISO date of the readings. */
  readonly date?: string;
}

/** A unit with a full run, which centre readings are compared with. What is not known stays away. */
export interface BatchReference {
  readonly unit: string;
  /** Centre illuminance, net, in lux; colour is red + green + blue. */
  readonly white?: number;
  readonly colour?: number;
  /** Light output of its full run, lm. With it the sheet estimates lumens. */
  readonly whiteOutput?: number;
  readonly colourOutput?: number;
}

/** Many units of one model in one mode, with one meter, at one image size: one row a unit. */
export interface BatchSetup
  extends Pick<
    RunSetup,
    'projector' | 'mode' | 'measuredBy' | 'meter' | 'image' | 'gain' | 'rated' | 'standard'
  > {
  /** What the batch is called. */
  readonly title: string;
  readonly readings: BatchReadings;
  readonly ambient: BatchAmbient;
  readonly uncertainty: UncertaintySetup;
  /** Relative expanded uncertainty as stated, 0.1 for 10 %; instead of the budget. */
  readonly stated: { readonly white?: number; readonly colour?: number };
  readonly reference: BatchReference;
  readonly units: readonly BatchUnit[];
  /** Lines of the table, at least as many as units: the rest is for units that come later. */
  readonly lines: number;
}

export function defaultBatchSetup(): BatchSetup {
  const { projector, mode, measuredBy, meter, image, gain, rated, standard, uncertainty } = defaultRunSetup();
  return {
    title: '',
    projector,
    mode,
    measuredBy,
    meter,
    image,
    gain,
    rated,
    standard,
    readings: 'nine points white',
    ambient: 'once',
    uncertainty,
    stated: {},
    reference: { unit: '' },
    units: [],
    lines: 20,
  };
}
