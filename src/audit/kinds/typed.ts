import { isoDay } from '../../sheets/days';
import type { CellName } from '../../sheets/names/all';
import type { Plan, Role } from '../../sheets/plan';
import { type SheetView, valueAt } from '../view';
import { cellNamed, textAt } from './cells';
import type { Origin } from './kind';

/** What a number that was read is, where the rule of its cell only says how to type it. */
const READ: Readonly<Partial<Record<Role, string>>> = {
  reading: 'number on the meter’s display',
  factor: 'by how much the display is multiplied in the range used',
};
const OF_THE_METER = [
  'CalibrationFactor',
  'WhiteSpectral',
  'RedSpectral',
  'GreenSpectral',
  'BlueSpectral',
] as const;

/** Where a typed figure is from as any sheet says it: by its meter, by who read it and when. */
export function originOfTyped(view: SheetView, plan: Plan, at: string): Origin | undefined {
  const role = plan.cells[at]?.role;
  if (role === undefined || valueAt(view, at) === null) return undefined;
  if (READ[role] !== undefined) return originOfReading(view, plan, at, dayNamed(view, plan, 'MeasuredOn'));
  if (role !== 'input' && role !== 'choice') return undefined;
  const isOfMeter = OF_THE_METER.some((name) => cellNamed(plan, name) === at);
  return { source: isOfMeter ? `set on this sheet for ${meter(view, plan)}` : 'set on this sheet' };
}

/** The same of a number that was read on a day, as `2026-03-02`; undefined for anything else. */
export function originOfReading(view: SheetView, plan: Plan, at: string, on: string): Origin | undefined {
  const definition = READ[plan.cells[at]?.role ?? 'line'];
  if (definition === undefined || valueAt(view, at) === null) return undefined;
  const who = textAt(view, cellNamed(plan, 'MeasuredBy'));
  const how = [meter(view, plan), who && `by ${who}`, on && `on ${on}`].filter((part) => part !== '');
  return { source: `read with ${how.join(', ')}`, definition };
}

/** `“LM 7” (calibrated on 2026-01-15)`. */
function meter(view: SheetView, plan: Plan): string {
  const name = textAt(view, cellNamed(plan, 'Meter'));
  if (name === '') return 'a meter that the sheet does not name';
  const on = dayNamed(view, plan, 'CalibratedOn');
  return `“${name}”${on && ` (calibrated on ${on})`}`;
}

function dayNamed(view: SheetView, plan: Plan, name: CellName): string {
  return isoDay(valueAt(view, cellNamed(plan, name)));
}
