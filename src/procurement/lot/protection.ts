import { chain, good, type Outcome } from '../../photometry/outcome';
import { chance, percent, units, whole } from '../wording/format';
import { CONSUMER_RISK, PRODUCER_RISK, riskPoints } from './curve';
import type { SamplingPlan } from './plan';
import { acceptProbability } from './probability';

/** What the plan does and does not say about this one lot, sentence by sentence. */
export function protection(plan: SamplingPlan): Outcome<string[]> {
  const words = plan.inspectsAll ? good(allInspected(plan)) : sampled(plan);
  return chain(words, (sentences) => good([...sentences, ...inBetween(plan)]));
}

const LIMITS = [
  'An accepted lot may still hold nonconforming units: every one that is found, whenever it is, is to be put right or replaced.',
  'The result holds for what was measured, in the mode and on the day it was measured.',
];

/** The gap of reduced plans, as MIL-STD-105E has it (from memory). */
function inBetween({ accept, reject }: SamplingPlan): string[] {
  const gap = reject - accept - 1;
  if (gap === 0) return [];
  const counts = gap === 1 ? whole(accept + 1) : `${whole(accept + 1)} to ${whole(reject - 1)}`;
  return [
    `With ${counts} nonconforming in the sample the lot is accepted, and the next lot is inspected normally.`,
  ];
}

function allInspected({ lotSize, tableSize }: SamplingPlan): string[] {
  return [
    `All ${units(lotSize)} are inspected, because the plan asks for ${whole(tableSize)}: nothing is left to chance but the measurement itself.`,
    ...LIMITS.slice(1),
  ];
}

function sampled({ reject, ...rest }: SamplingPlan): Outcome<string[]> {
  const { lotSize, aql } = rest;
  const accept = reject - 1;
  const plan = { ...rest, accept };
  const atAql = Math.floor((lotSize * aql) / 100);
  return chain(riskPoints(plan), ({ producer, consumer }) =>
    chain(acceptProbability(plan, Math.max(1, atAql)), (probability) =>
      good([
        `For a series of lots from one maker the plan keeps the average quality near ${aql} % nonconforming. That is a promise about the series; about a single lot only the following can be said.`,
        `A lot of ${whole(lotSize)} with ${units(Math.max(1, atAql))} nonconforming is accepted with a probability of ${chance(probability)}.`,
        producer.nonconforming === 0
          ? `Even one nonconforming unit in the lot lowers the probability of acceptance below ${chance(1 - PRODUCER_RISK)}: the producer’s risk is higher than the usual ${percent(PRODUCER_RISK)}.`
          : `A lot with at most ${units(producer.nonconforming)} nonconforming (${percent(producer.fraction)}) is accepted with a probability of at least ${chance(1 - PRODUCER_RISK)}: the producer’s risk.`,
        `Only from ${units(consumer.nonconforming)} nonconforming on (${percent(consumer.fraction)}) is a lot rejected with a probability of at least ${chance(1 - CONSUMER_RISK)}: the consumer’s risk. Below that a bad lot passes more often.`,
        `A sample ${accept === 0 ? 'without a nonconforming unit' : `with no more than ${units(accept)} nonconforming`} is no proof that the rest of the lot conforms. Where one lot must be protected, choose a plan by limiting quality (ISO 2859-2) or by the exact curve shown here.`,
        ...LIMITS,
      ]),
    ),
  );
}
