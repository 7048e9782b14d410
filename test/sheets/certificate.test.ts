import { expect, it } from 'vitest';
import { report } from '../../src/metrology/report';
import { cellsOf } from '../../src/sheets/address';
import { certificatePlan } from '../../src/sheets/certificate';
import { CERTIFICATE_STATES } from '../../src/sheets/certificate/results';
import type { CertifiedRun } from '../../src/sheets/certificate/run';
import { type CertifiedSeal, SEAL_SENTENCES } from '../../src/sheets/certificate/seal';
import { addressesOf } from '../../src/sheets/filled';
import type { Plan } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import type { RunSetup } from '../../src/sheets/runsetup';
import { writeXlsx } from '../../src/xlsx/write';
import { createPaneHost } from '../excel/host';
import { convert, recalculate } from '../tools/libreoffice';
import { byModel } from './bymodel';
import { byFunctions, filled, randomRun } from './randomrun';
import { SETUPS } from './setups';

const certified = (plan: Plan, sheet: string): CertifiedRun => ({
  sheet,
  addresses: addressesOf(plan),
});
const at = (plan: Plan, name: string) => cellsOf(plan.names.find((n) => n.name === name)!.range);

it('LibreOffice shows the run’s results on the certificate, rounded as they are reported', async () => {
  const runs = [3, 4, 5, 6, 7].map(randomRun);
  const sheets = bookOf(runs.map(filled)).sheets.map(({ name }) => name);
  const papers = runs.map(({ plan }, i) =>
    certificatePlan(
      { run: certified(plan, sheets[i]!), number: `${i + 1}`, issuedBy: 'Library network (invented)' },
      `c${i}`,
    ),
  );
  const book = bookOf([...runs.map(filled), ...papers]);
  const [came] = await recalculate([await writeXlsx(book, { cachedValues: false })]);
  runs.forEach((run, i) => {
    const { cells } = came!.sheets[runs.length + i]!;
    const value = (name: string) => cells[at(papers[i]!, name)[0]!]?.value;
    const functions = byFunctions(run);
    const want = { ...functions, ...byModel(run, functions) };
    for (const [id, name] of [
      ['White', 'WhiteLightOutput'],
      ['Colour', 'ColourLightOutput'],
      ['Ratio', 'ColourToWhite'],
    ] as const) {
      const reported = report(want[name] as number, want[`${id}Expanded`] as number);
      expect(value(`Certified${id}`), `run ${i} ${id}`).toBe(reported.value);
      expect(value(`Certified${id}U`), `run ${i} ${id} U`).toBe(reported.expanded);
      if (id !== 'Ratio') expect(value(`Certified${id}Decision`)).toBe(want[`${id}Verdict`]);
    }
    for (const [id, name, scale] of [
      ['Luminance', 'ScreenLuminance', 1],
      ['Uniformity', 'UniformityMinMax', 100],
      ['Contrast', 'SequentialContrast', 1],
      ['Board', 'BoardContrast', 1],
    ] as const) {
      if (want[name] === undefined) continue;
      // A contrast that is only a bound stands there as it is, without U.
      const y = want[name];
      const u = want[`${id}Expanded`] as number;
      const reported = typeof y === 'number' ? report(scale * y, scale * u) : undefined;
      const pair = reported && `${reported.value} ± ${reported.expanded}`;
      expect(value(`Certified${id}`), `run ${i} ${id}`).toBe(
        pair === undefined ? y : scale === 100 ? `(${pair}) %` : pair,
      );
    }
    expect(value('CertifiedCount')).toBe(stateOf(run.setup));
    expect(value('Projector')).toBe(run.setup.projector);
    expect(value('SerialNumber')).toBe('not stated');
  });
});

/** A paper is complete only where somebody can be asked: which meter, who, when. */
function stateOf({ meter, measuredBy, date }: RunSetup): string {
  const isStated = [meter.name, measuredBy, date].every((text) => text !== '');
  return CERTIFICATE_STATES[isStated ? 'complete' : 'unstated'];
}

it('is a draft, in words, while readings are missing, and has no figure of its own', async () => {
  const run = runPlan(SETUPS['white-only']!, 'w1');
  const paper = certificatePlan({ run: certified(run, 'Run'), number: '', issuedBy: '' }, 'd1');
  const [book] = await recalculate([
    await writeXlsx(bookOf([{ ...run, title: 'Run' }, paper]), { cachedValues: false }),
  ]);
  const { cells } = book!.sheets[1]!;
  expect(cells[at(paper, 'CertifiedCount')[0]!]?.value).toMatch(/^DRAFT/);
  expect(cells[at(paper, 'CertifiedWhite')[0]!]?.value).toBe('waiting');
  const errors = Object.entries(cells).filter(([, { value }]) => typeof value === 'object' && value !== null);
  expect(errors).toEqual([]);
  expect(Object.values(paper.cells).filter(({ value }) => typeof value === 'number')).toEqual([]);
  const words = Object.values(paper.cells).map(({ value }) => String(value ?? ''));
  expect(words.some((text) => /^Not measured: colour light output, ambient light/.test(text))).toBe(true);
});

it('prints on one page', async () => {
  const run = randomRun(3);
  const sheet = bookOf([filled(run)]).sheets[0]!.name;
  const paper = certificatePlan({ run: certified(run.plan, sheet), number: '1', issuedBy: 'x' }, 'e1');
  const pages = async (plans: Plan[]) => {
    const [pdf] = await convert([await writeXlsx(bookOf(plans), { cachedValues: false })], 'pdf');
    return Buffer.from(pdf!)
      .toString('latin1')
      .match(/\/Type\s*\/Page\b(?!s)/g)!.length;
  };
  expect((await pages([filled(run), paper])) - (await pages([filled(run)]))).toBe(1);
});

it('follows the run in the embedded engine', async () => {
  const { host, test } = await createPaneHost();
  const run = randomRun(4);
  const { sheet } = await host.build(filled(run));
  const reading = await host.read(sheet);
  const addresses = Object.fromEntries(
    Object.entries(reading.values).map(([name, { address }]) => [name, address]),
  );
  const paper = certificatePlan({ run: { sheet, addresses }, number: '1', issuedBy: 'x' }, 'f1');
  const built = await host.build(paper);
  await test.engine.calculation.settled();
  const shown = async () => {
    const { values } = await host.read(built.sheet);
    return (['CertifiedWhite', 'CertifiedWhiteU', 'CertifiedCount'] as const).map(
      (name) => values[name]!.values[0]![0],
    );
  };
  const functions = byFunctions(run);
  const want = { ...functions, ...byModel(run, functions) };
  const reported = report(want.WhiteLightOutput as number, want.WhiteExpanded as number);
  expect(await shown()).toEqual([reported.value, reported.expanded, stateOf(run.setup)]);
});

/*
 * What the paper says of the run's seal is a plain formula, so LibreOffice is asked. Results that stood there when
 * the seal was compared are those of the run, or one of them made a hair larger.
 */
it('says whether the run is sealed, and whether results are still those that were sealed', async () => {
  const run = randomRun(4);
  const sheet = bookOf([filled(run)]).sheets[0]!.name;
  const results = byFunctions(run);
  const then = {
    White: results.WhiteLightOutput as number,
    Colour: results.ColourLightOutput as number,
    Ratio: results.ColourToWhite as number,
  };
  const sealed: CertifiedSeal = {
    who: '=A. Nobody',
    when: '2026-11-25 09:30:00 UTC',
    hash: '0'.repeat(64),
    key: '',
    compared: '2026-11-26 08:00:00 UTC',
    found: 'it holds',
    results: then,
  };
  const seals: (CertifiedSeal | undefined)[] = [
    undefined,
    sealed,
    { ...sealed, results: { ...then, White: then.White * 1.000001 } },
    { ...sealed, found: 'IT DOES NOT HOLD' },
    // A result was there when it was compared and another has come since.
    { ...sealed, results: { White: then.White, Ratio: then.Ratio } },
  ];
  const papers = seals.map((seal, i) =>
    certificatePlan(
      { run: certified(run.plan, sheet), number: '1', issuedBy: 'x', ...(seal ? { seal } : {}) },
      `g${i}`,
    ),
  );
  const [came] = await recalculate([
    await writeXlsx(bookOf([filled(run), ...papers]), { cachedValues: false }),
  ]);
  const shown = papers.map((paper, i) => {
    const value = (name: string) => came!.sheets[i + 1]!.cells[at(paper, name)[0]!]?.value ?? null;
    return [value('SealState'), value('SealedBy'), value('SealKey')];
  });
  const { none, sealed: whole, changed, broken } = SEAL_SENTENCES;
  expect(shown).toEqual([
    [none, null, null],
    [whole, '=A. Nobody', 'not signed'],
    [changed, '=A. Nobody', 'not signed'],
    [broken, '=A. Nobody', 'not signed'],
    [changed, '=A. Nobody', 'not signed'],
  ]);
});
