import type { Plan } from '../../sheets/plan';
import type { Moment } from '../../sheets/report';
import { tracePlan } from '../../sheets/trace';
import type { TraceNode } from './node';
import { shownValue, traceLines } from './text';

/** A chain as a sheet. @param id unique to the sheet, lower-case letters and digits */
export function traceSheet(node: TraceNode, moment: Moment, id: string): Plan {
  const { sheet, at, label } = node;
  const traced = `${label} = ${shownValue(node)}`;
  return tracePlan({ moment, sheet, cell: at, traced, lines: traceLines(node) }, id);
}
