import { describe, expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { reportText } from '../../src/audit/check/text';
import { calculate } from '../../src/audit/formula/calculate';
import type { Book } from '../../src/sheets/book';
import type { Plan } from '../../src/sheets/plan';
import { bookOf, realize } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { defaultRunSetup } from '../../src/sheets/runsetup';
import { readXlsx, writeXlsx } from '../../src/xlsx';
import { filled, random, randomRun } from '../sheets/randomrun';
import { amount } from '../tools/amount';
import { convert } from '../tools/libreoffice';
import { sheetWith } from '../xlsx/sample';
import { measured } from './sheets';

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

/** Errors and warnings of a check, as text: what must be empty where nothing was done to a sheet. */
async function alarms(book: Book): Promise<string> {
  const report = await check(book);
  expect(report.sheets.length).toBeGreaterThan(0);
  const findings = report.findings.filter(({ severity }) => severity !== 'note');
  return findings.length === 0 ? '' : reportText({ ...report, findings });
}

describe('a check is quiet', () => {
  it('about sheets as built and filled in, whatever their set-up', async () => {
    expect(await alarms(measured(...SEEDS))).toBe('');
  });

  it('about a sheet nobody has filled in', async () => {
    const sheet = calculate(bookOf([runPlan(defaultRunSetup(), 'a1')]).sheets[0]!);
    expect(await alarms({ sheets: [sheet], names: [] })).toBe('');
  });

  /** Some readings missing, some over range, some cells nobody came to: a run as it stands while it is measured. */
  function halfRead(seed: number): Plan {
    const draw = random(100 + seed);
    const run = randomRun(seed);
    const typed = Object.entries(run.typed).map(([name, rows]) => {
      const isReadings = /Readings$|^Pattern[ABC]$|^LastReading$|Repeat/.test(name);
      const part = pickPart(draw());
      return [
        name,
        rows.map((row) =>
          row.map((value) => {
            const chance = draw();
            if (!isReadings || chance < part.kept) return value;
            return chance < part.kept + part.over ? 'over' : '';
          }),
        ),
      ] as const;
    });
    return filled({ ...run, typed: Object.fromEntries(typed) });
  }
  /** Whether a block of readings is whole, begun, not begun, or has a few over range. */
  const pickPart = (chance: number) =>
    chance < 0.4
      ? { kept: 1, over: 0 }
      : chance < 0.6
        ? { kept: 0.6, over: 0 }
        : chance < 0.8
          ? { kept: 0, over: 0 }
          : { kept: 0.8, over: 0.2 };

  it('about runs that are half read or over range', async () => {
    const sheets = bookOf(Array.from({ length: amount(12, 24) }, (_, seed) => halfRead(seed))).sheets.map(
      calculate,
    );
    expect(await alarms({ sheets, names: [] })).toBe('');
  });

  it('about a run in a room that is brighter than the picture', async () => {
    const runs = SEEDS.map(randomRun).filter(({ typed }) => typed.AmbientReadings !== undefined);
    expect(runs.length).toBeGreaterThan(3);
    const bright = runs.map((run) => {
      const AmbientReadings = run.typed.AmbientReadings!.map((row) => row.map(() => 1500));
      return filled({ ...run, typed: { ...run.typed, AmbientReadings } });
    });
    expect(await alarms({ sheets: bookOf(bright).sheets.map(calculate), names: [] })).toBe('');
  });

  it('after renaming, moving and inserting a foreign sheet', async () => {
    const book = measured(1, 2, 3);
    const [first, second, third] = book.sheets.map((sheet, i) => ({
      ...sheet,
      name: `Anna's sheet ${i}`,
      names: sheet.names.map((name) => ({
        ...name,
        refersTo: name.refersTo.replace(/'.*'!/, `'Anna''s sheet ${i}'!`),
      })),
    }));
    const foreign = sheetWith({ name: 'Shopping list', cells: { A1: { value: 'milk' } } });
    expect(await alarms({ ...book, sheets: [third!, foreign, first!, second!] })).toBe('');
  });

  it('after a copy of a sheet was made, of which it says that it is one', async () => {
    const plan = runPlan(defaultRunSetup(), 'a1');
    const sheets = [realize(plan, 'Run'), realize(plan, 'Run (2)')].map(calculate);
    expect(await alarms({ sheets, names: [] })).toBe('');
    const { findings } = await check({ sheets, names: [] });
    expect(findings.map(({ message }) => message)).toContain(
      'The sheet bears the same mark as “Run”: one was copied from the other.',
    );
  });

  it('after saving and reopening', async () => {
    expect(await alarms(await readXlsx(await writeXlsx(measured(...SEEDS))))).toBe('');
  });

  it('after saving and reopening through LibreOffice, but for the add-in that was absent there', async () => {
    const [saved] = await convert([await writeXlsx(measured(...SEEDS.slice(0, amount(3, 8))))], 'xlsx');
    const { findings } = await check(await readXlsx(saved!));
    const others = findings.filter(
      ({ severity, kind, found }) => severity !== 'note' && !(kind === 'broken' && found === '#NAME?'),
    );
    expect(others).toEqual([]);
  }, 120_000);
});
