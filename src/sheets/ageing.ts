import { NO_FALL, putCrossings, THROUGHOUT, WITHIN } from './ageing/crossings';
import { putDrawn } from './ageing/drawn';
import { putFit } from './ageing/fit';
import { measurementColumns } from './ageing/lines';
import { putNext } from './ageing/next';
import { type AgeingSetup, MOST_MEASUREMENTS } from './ageing/setup';
import { putUnit } from './ageing/unit';
import { PlanBuilder } from './builder';
import type { Plan } from './plan';
import { putRows } from './rows';

export const AGEING_VERSION = 5;

const METHOD =
  'Φ(t) = B·e^(−αt), by least squares of ln Φ over the hours of the light source, every measurement counted alike (TM-21, from memory). ' +
  'Interval: where the confidence band of the line crosses the level (Student’s t, Fieller’s theorem).';

/** The hours that matter: to the need where one is stated, else to 70 %. */
const ANSWER = (() => {
  const of = (name: string) => `INDEX(${name},IF(COUNT(NeededOutput)=1,3,1))`;
  const hours = (name: string) => `ROUND(${of(name)},0)`;
  const interval = `IF(COUNT(${of('HoursToFrom')},${of('HoursToUntil')})=2," ("&${hours('HoursToFrom')}&" to "&${hours('HoursToUntil')}&" h)","")`;
  const words = (need: string, part: string) => `IF(COUNT(NeededOutput)=1,"${need}","${part}")`;
  const trust = of('HoursTrust');
  const never = words(
    'At or below what the room needs at every hour measured',
    'At or below 70 % at every hour measured',
  );
  const steady = `${words('Enough for the room so far, ', 'Above 70 % so far, ')}&${trust}`;
  const until = `IF(${trust}="${WITHIN}",${words('At or below what the room needs since ', 'At or below 70 % since ')},${words('Enough for the room until ', 'Down to 70 % at ')})`;
  const at = `IF(COUNT(${of('HoursTo')})=0,${of('HoursTo')},${hours('HoursTo')}&" h")`;
  return `IF(AgeingState<>"complete",AgeingState,IF(${trust}="${THROUGHOUT}",${never},IF(${of('HoursTo')}="${NO_FALL}",${steady},${until}&${at}&${interval}&", "&${trust})))`;
})();

const LIMITS =
  'Whatever lies beyond the last measurement is projected, not measured, and nothing is said beyond 6 × the observed hours. The form was made for LEDs; for lamps and lasers it is an extrapolation by analogy, and a lamp may fail before it has faded. ' +
  'Measure in the same mode, with the same meter, after the same warm-up and with a clean lens: otherwise the fit shows the dust, the mode or the meter. An interval tells the scatter about the line, not whether the line is the right one.';

/** One unit over the hours of its light source: how fast its light falls, and when it no longer suffices. */
export function ageingPlan(setup: AgeingSetup, id: string): Plan {
  if (setup.points.length > MOST_MEASUREMENTS) {
    throw new Error(
      `An ageing sheet holds ${MOST_MEASUREMENTS} measurements; ${setup.points.length} were given`,
    );
  }
  const b = new PlanBuilder();
  b.wide('A1:J1', { role: 'title', value: 'Ageing: light output over the hours of the source' }).height(
    1,
    26,
  );
  b.wide('A2:J2', { role: 'note', value: METHOD }).height(2, 32);
  b.wide('A3:J3', { role: 'caution', value: LIMITS }).height(3, 62);
  b.wide('A4:J4', { role: 'answer', formula: `=${ANSWER}` }).height(4, 24);
  const fit = putUnit(b, 5, setup);
  const table = putFit(b, fit + 1);
  const crossings = putCrossings(b, table + 1);
  const next = putNext(b, crossings.next + 1, crossings);
  const row = next + 1;
  const rows = putRows(b, row, measurementColumns(row + 2), setup.points, MOST_MEASUREMENTS);
  const top = 5;
  const over = `L${top}:R${crossings.next - 6}`;
  putDrawn(b, rows.next + 1, over, crossings.at, {
    hours: rows.range('hours'),
    output: rows.range('output'),
  });
  return b.build({
    kind: 'ageing',
    version: AGEING_VERSION,
    id,
    title: `Ageing ${setup.projector}`.trim(),
    // Whether two agree stands on one line, how hours are known on two.
    columns: { ...rows.widths, E: 14, J: 14, K: 18, Q: 12, R: 12, S: 12, T: 12, U: 12 },
    print: { orientation: 'landscape', titleColumns: 'A:A', groups: ['L'] },
    start: `B${rows.first + setup.points.length}`,
  });
}
