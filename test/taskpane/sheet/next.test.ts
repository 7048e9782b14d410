import { describe, expect, it } from 'vitest';
import { isOfBatch, lineOfBatch, lineOfRun } from '../../../src/sheets/acceptance/links';
import type { SheetKind } from '../../../src/sheets/plan';
import { type Facts, nextOn } from '../../../taskpane/sheet/next';
import { lotLinkedTo } from '../../../taskpane/sheet/unitrun';

/* From rooms to a sealed decision, by the one next thing that each sheet offers; names are invented. */
const facts = (kinds: readonly SheetKind[], more: Partial<Facts> = {}): Facts => ({
  sheets: kinds.map((kind) => ({ sheet: `The ${kind}`, kind })),
  isSealed: false,
  chosen: '',
  failing: '',
  ...more,
});
const line = (tone: 'good' | 'open' | 'none', outcome?: 'good' | 'bad') => ({
  sheet: 'Sheet',
  tone,
  progress: '',
  outcome,
});
const next = (kind: SheetKind, stand: ReturnType<typeof line>, known: Facts) =>
  nextOn(kind, stand, known)?.id;

describe('a purchase goes on from sheet to sheet', () => {
  it.each([
    ['need', line('good'), facts(['need']), 'offers'],
    ['need', line('good'), facts(['need', 'offers']), 'go'],
    ['offers', line('none'), facts(['offers']), 'offers'],
    ['offers', line('good'), facts(['offers']), 'choose'],
    ['offers', line('good'), facts(['offers'], { chosen: 'North' }), 'lot'],
    ['offers', line('good'), facts(['offers', 'acceptance'], { chosen: 'North' }), 'go'],
    ['acceptance', line('none'), facts(['acceptance']), 'batch'],
    ['acceptance', line('none'), facts(['acceptance', 'run']), 'batch'],
    ['acceptance', line('open'), facts(['acceptance', 'run']), 'link'],
    ['acceptance', line('open'), facts(['acceptance', 'batch']), 'link'],
    ['acceptance', line('good', 'bad'), facts(['acceptance', 'batch'], { failing: 'K-7' }), 'failing'],
    [
      'acceptance',
      line('good', 'bad'),
      facts(['acceptance', 'batch', 'run'], { failing: 'K-7', failingRun: 'Run K-7' }),
      'go',
    ],
    ['acceptance', line('good', 'good'), facts(['acceptance', 'batch']), 'seal'],
    ['batch', line('open'), facts(['batch', 'acceptance']), 'capture'],
    ['batch', line('good'), facts(['batch', 'acceptance']), 'link into'],
    ['batch', line('good'), facts(['batch', 'acceptance'], { linkedLot: 'The acceptance' }), 'go'],
    ['run', line('open'), facts(['run']), 'capture'],
    ['run', line('good'), facts(['run']), 'certificate'],
    ['run', line('good'), facts(['run', 'run', 'certificate']), 'comparison'],
    ['run', line('good'), facts(['run', 'certificate']), 'seal'],
    ['spot', line('open'), facts(['spot']), 'capture'],
    ['spot', line('good'), facts(['spot']), 'full run'],
    ['ageing', line('good'), facts(['ageing']), 'ageing'],
  ] as const)('%s, %o', (kind, stand, known, id) => expect(next(kind, stand, known)).toBe(id));
});

it('a sealed sheet asks for nothing more', () => {
  expect(next('run', line('open'), facts(['run'], { isSealed: true }))).toBeUndefined();
});

describe('a batch that is linked into a lot', () => {
  const reading = (sheet: string, kind: SheetKind, columns: Record<string, readonly (string | null)[]>) => ({
    ...{ sheet, kind, id: sheet, version: 1 },
    values: Object.fromEntries(
      Object.entries(columns).map(([name, cells]) => [
        name,
        { address: 'A1', values: cells.map((cell) => [cell]), texts: [] },
      ]),
    ),
  });
  const batch = reading('Batch', 'batch', { Serials: ['K-1', 'K-2', null] });
  const lot = (...sources: (string | null)[]) =>
    reading('Lot', 'acceptance', { Serials: ['K-0', 'K-1', 'K-2', null], UnitSource: [null, ...sources] });

  it.each([
    [['batch, line 1', 'batch line 2 without a result'], 'Lot'],
    // A unit that came to the batch later is still to be linked, and so is one whose figures come from a run.
    [['batch, line 1', null], undefined],
    [['batch, line 1', 'run sheet: North type 1, Bright'], undefined],
    [['the linked batch is gone', 'the linked batch is gone'], undefined],
  ] as const)('%j', (sources, linked) => expect(lotLinkedTo('Batch', [batch, lot(...sources)])).toBe(linked));

  it('is told by the words that its lines were given', () => {
    const cells = { serial: 'A1', white: 'B1' };
    const addresses = {
      Serials: 'A1:A9',
      UnitWhite: 'B1:B9',
      SerialNumber: 'A1',
      WhiteLightOutputPlain: 'B1',
    };
    const says = (formula = '') =>
      [...formula.matchAll(/"([a-z][^"]*)"/g)].map(([, words]) => words!).filter(isOfBatch);
    expect(says(lineOfBatch({ sheet: 'Batch', addresses }, cells).UnitSource)).toEqual([
      'in the batch more than once: the first counts',
      'batch line ',
      'batch, line ',
      'typed here; its batch says otherwise',
    ]);
    expect(says(lineOfRun({ sheet: 'Run', addresses }, cells).UnitSource)).toEqual([]);
  });
});
