import { describe, expect, it } from 'vitest';
import type { SheetKind } from '../../../src/sheets/plan';
import { type Facts, nextOn } from '../../../taskpane/sheet/next';

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
