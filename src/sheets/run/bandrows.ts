import { block, type PlanBuilder } from '../builder';

/** First rows of a band's parts. */
export interface BandRows {
  readonly head: number;
  readonly readings: number;
  readonly state: number;
  readonly net: number;
  readonly ranges: number;
}

/** How far a grid is, below it. */
export function putState(b: PlanBuilder, column: string, { state }: BandRows, formula: string): void {
  b.wide(block(column, state, 1, 3), { role: 'check', formula });
}
