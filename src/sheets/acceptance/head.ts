import { LUMENS } from '../../photometry/bounds';
import { LISTED_AQLS } from '../../procurement/lot/master';
import { switchingWords } from '../../procurement/lot/switching';
import { COUNTINGS } from '../../procurement/lot/verdict';
import type { PlanBuilder } from '../builder';
import { dayNumber } from '../days';
import { type EntryLine, putEntries } from '../entries';
import { FORMAT } from '../run/layout';
import { FIRST_DATE, TEXT_MAX } from '../setup/fields';
import type { DrawnLot } from './setup';

/** What the plan is taken from beside AQL and size of the lot. */
const FIXED = [
  ['Inspection level', 'InspectionLevel', 'level'],
  ['Severity of inspection', 'Severity', 'severity'],
] as const;

/** The lot, the limits and the draw's record. Returns the first row below. */
export function putHead(b: PlanBuilder, row: number, setup: DrawnLot): number {
  const text = (max: number) => ({ rule: { type: 'length', max }, format: '@' }) as const;
  const lumens = { rule: { type: 'number', ...LUMENS }, format: '#,##0.0' } as const;
  const lines: readonly EntryLine[] = [
    { label: 'Lot', name: 'Lot', value: setup.lot, why: 'As the delivery note calls it.', ...text(TEXT_MAX) },
    {
      label: 'AQL, % nonconforming',
      name: 'Aql',
      value: setup.aql,
      rule: { type: 'number', min: LISTED_AQLS[0], max: LISTED_AQLS[LISTED_AQLS.length - 1]! },
      why: `Acceptance quality limit: ${LISTED_AQLS.join(' ')}. Fixed before the draw.`,
      format: 'General',
    },
  ];
  const others: readonly EntryLine[] = [
    {
      label: 'Least white, lm',
      name: 'LeastWhite',
      value: setup.leastWhite,
      why: 'Least white light output of a unit. Empty: white is not judged.',
      ...lumens,
    },
    {
      label: 'Least colour, lm',
      name: 'LeastColour',
      value: setup.leastColour,
      why: 'Least colour light output of a unit. Empty: colour is not judged.',
      ...lumens,
    },
    {
      label: 'How decisions count',
      name: 'Counting',
      value: setup.counting,
      rule: { type: 'list', choices: COUNTINGS },
      why: 'value: conditional pass conforms; strict: only a pass does; lenient: only a fail does not. Fixed before the readings.',
      format: 'General',
    },
    {
      label: 'Seed of the draw',
      name: 'Seed',
      value: setup.seed,
      why: 'Fixed in public after the list was closed, say by dice.',
      ...text(TEXT_MAX),
    },
    {
      label: 'Drawn by',
      name: 'DrawnBy',
      value: setup.drawnBy,
      why: 'Who drew, and before whom.',
      ...text(TEXT_MAX),
    },
    {
      label: 'Drawn on',
      name: 'DrawnOn',
      value: setup.drawnOn ? dayNumber(setup.drawnOn) : undefined,
      rule: { type: 'date', min: FIRST_DATE },
      why: 'Day of the draw.',
      format: FORMAT.date,
    },
  ];
  b.wide(`A${row}:J${row}`, { role: 'heading', value: 'Lot (tinted cells are yours to fill in)' });
  const fixed = putEntries(b, row + 1, lines);
  FIXED.forEach(([label, name, of], i) => {
    b.put(`A${fixed + i}`, { role: 'label', value: label });
    b.wide(`B${fixed + i}:D${fixed + i}`, {
      role: 'derived',
      value: setup.plan[of],
      format: '@',
      align: 'left',
    });
    b.name(name, `B${fixed + i}`, label);
  });
  const next = putEntries(b, fixed + FIXED.length, others);
  b.wide(`F${row + 1}:J${row + 3}`, { role: 'note', value: setup.draw.method });
  b.wide(`F${row + 6}:J${row + 6}`, {
    role: 'note',
    value: 'Fingerprint of the list of serials as drawn from (SHA-256 of the sorted serials, one a line):',
  });
  b.wide(`F${row + 7}:J${row + 7}`, { role: 'derived', value: setup.draw.listFingerprint, format: '@' });
  b.name('ListFingerprint', `F${row + 7}`, 'SHA-256 of the sorted serials');
  b.wide(`F${row + 8}:J${row + 10}`, {
    role: 'note',
    value: `Level and severity are fixed with the draw: another of them is another sheet. ${switchingWords(setup.plan.severity)}`,
  });
  for (let r = row + 8; r <= row + 10; r++) b.height(r, 25);
  return next;
}
