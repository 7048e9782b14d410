import { colourFunctions } from './colour';
import { imageFunctions } from './image';
import { lightFunctions } from './light';
import { meterCheckFunctions } from './metercheck';
import { procurementFunctions } from './procurement';
import type { FunctionRecord } from './record';
import { screenFunctions } from './screen';
import { uncertaintyFunctions } from './uncertainty';

/** Namespace of all custom functions, as the manifest has it. */
export const NAMESPACE = 'LIGHT';

/** Every custom function. functions.json, the wrappers, the help and the page of functions (README.md) come from here. */
export const FUNCTIONS: readonly FunctionRecord[] = [
  ...imageFunctions,
  ...lightFunctions,
  ...colourFunctions,
  ...screenFunctions,
  ...uncertaintyFunctions,
  ...meterCheckFunctions,
  ...procurementFunctions,
];
