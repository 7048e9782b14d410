import type * as v from 'valibot';
import type { TEMPLATE } from './schema';

/**
 * The set-up of a bid: rooms, meter, how is measured and decided, the words for a tender, and which sheets are built
 * from it. Complete: what a file leaves out has its default here.
 */
export type Template = v.InferOutput<typeof TEMPLATE>;
/** As a file may hold it, with gaps. */
export type TemplateFile = v.InferInput<typeof TEMPLATE>;
