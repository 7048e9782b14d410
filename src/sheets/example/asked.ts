import { DECISION_RULES } from '../../metrology/words';
import type { SamplingPlan } from '../../procurement/lot/plan';
import { need } from '../../procurement/need/need';
import { taskContrast } from '../../procurement/need/tasks';
import { ASKED_STEP, roundUp } from '../../procurement/wording/format';
import { DEFAULT_STANDARD, TENDER_PARTS, type TenderPart, tender } from '../../procurement/wording/tender';
import { EXAMPLE_ROOMS, LEAST_PART } from './network';

/** What the network asks for: one type of unit for all rooms, so the largest need decides. */
export interface Asked {
  readonly white: number;
  readonly colour: number;
  /** Light that the room with the largest need must still have in its daily mode at the end, in the rated mode, lm. */
  readonly atEnd: number;
}

export function exampleAsked(): Asked {
  const needs = EXAMPLE_ROOMS.map(
    ({ width, height, gain, ambient, task, luminance, ownContrast, ...room }) => {
      const found = need({
        area: width * height,
        gain,
        ambient: ambient!,
        contrast: taskContrast(task).contrast,
        luminance,
        ownContrast,
        ageing: room.ageing,
        mode: room.mode,
        colourPart: room.colourPart,
      });
      if (!found.ok) throw new Error(`The room ${room.room} of the example has no need`);
      return { ...found.value, ageing: room.ageing };
    },
  );
  const largest = needs.reduce((a, b) => (b.white > a.white ? b : a));
  return {
    white: roundUp(largest.white, ASKED_STEP),
    colour: roundUp(Math.max(...needs.map(({ colour }) => colour)), ASKED_STEP),
    atEnd: roundUp(largest.white * largest.ageing, ASKED_STEP),
  };
}

/** The paragraphs of the tender for that need. */
export function exampleWording({ white, colour }: Asked, plan: SamplingPlan): Record<TenderPart, string> {
  const words = tender({
    white,
    colour,
    standard: DEFAULT_STANDARD,
    fraction: LEAST_PART,
    rule: DECISION_RULES[0],
    plan,
  });
  if (!words.ok) throw new Error(`The tender of the example lacks one of ${TENDER_PARTS.join(', ')}`);
  return words.value;
}
