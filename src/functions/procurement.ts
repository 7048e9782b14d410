import { ageingFunctions } from './ageing';
import { batchFunctions } from './batch';
import { lotFunctions } from './lots';
import { needFunctions } from './need';
import { offerFunctions } from './offers';
import type { FunctionRecord } from './record';

/** The functions of buying: what to ask for, what is offered, whether a lot is accepted, how units age. */
export const procurementFunctions: readonly FunctionRecord[] = [
  ...needFunctions,
  ...offerFunctions,
  ...batchFunctions,
  ...lotFunctions,
  ...ageingFunctions,
];
