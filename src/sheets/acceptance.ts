import { planSource } from '../procurement/lot/plan';
import { serialText } from '../procurement/lot/serials';
import { FROZEN_ROWS, putAnswer } from './acceptance/answer';
import { putCurve } from './acceptance/curve';
import { putFailures } from './acceptance/failures';
import { putHead } from './acceptance/head';
import { putMaster } from './acceptance/master';
import { type DrawnLot, LARGEST_LISTED_LOT } from './acceptance/setup';
import { UNIT_COLUMNS } from './acceptance/units';
import { putVerdict } from './acceptance/verdict';
import { PlanBuilder } from './builder';
import type { Plan } from './plan';
import { putRows } from './rows';

export const ACCEPTANCE_VERSION = 6;

const METHOD =
  'A unit is decided as ILAC-G8:09/2019, 4.2.3 has it, with a guard band of U. Only units of the recorded draw count; others may be listed and measured, and stay out of the verdict.';

/** A lot: plan, recorded draw, one line a unit, verdict, how probably such a lot is accepted, what failed. */
export function acceptancePlan(setup: DrawnLot, id: string): Plan {
  if (setup.serials.length > LARGEST_LISTED_LOT) {
    throw new Error(
      `An acceptance sheet lists ${LARGEST_LISTED_LOT} units; there are ${setup.serials.length}`,
    );
  }
  const b = new PlanBuilder();
  b.wide('A1:J1', { role: 'title', value: 'Acceptance of a lot' }).height(1, 26);
  const answer = putAnswer(b, 2);
  const failures = putFailures(b, answer + 1);
  const head = putHead(b, failures + 1, setup);
  const verdict = putVerdict(b, head + 1, setup);
  b.wide(`A${verdict}:J${verdict}`, {
    role: 'note',
    value: `Plan: ${planSource(setup.plan)}. ${METHOD}`,
  }).height(verdict, 32);
  const curve = putCurve(b, verdict + 2, setup.serials.length);
  const tickets = new Map(
    setup.draw.drawn.map(({ serial, ticket }, i) => [serial, { place: i + 1, ticket }]),
  );
  const listed = setup.serials.map((serial) => {
    const text = serialText(serial);
    return { serial: text, ...tickets.get(text) };
  });
  const rows = putRows(b, curve + 1, UNIT_COLUMNS, listed, listed.length, 'filter');
  putMaster(b, rows.next + 1, setup.plan);
  for (const row of [failures, head, verdict + 1, curve, rows.next]) b.part(row + 1);
  return b.build({
    kind: 'acceptance',
    version: ACCEPTANCE_VERSION,
    id,
    title: `Acceptance ${setup.lot}`.trim(),
    columns: rows.widths,
    // What a unit counts as, and why, stand on the second page across, beside its serial.
    print: { orientation: 'landscape', titleColumns: 'A:A', groups: ['K'] },
    start: 'A1',
    freeze: { rows: FROZEN_ROWS, columns: 0 },
  });
}
