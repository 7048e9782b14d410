/*
 * A record of how the files beside it were made, run once at commit b2da8a1:
 *   npx vitest run --config test/frozen/second/make/vitest.config.ts
 * It calls that program's own parts and need not run, nor compile, with any later one.
 *
 * First step: one workbook for each kind of sheet at its plainest and at its fullest, a batch of 20 units, and what
 * the command line makes. Rooms, bidders, units, people and readings are invented.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { calculateBook } from '../../../../src/audit/formula/calculate';
import { tender } from '../../../../src/procurement/wording/tender';
import { acceptancePlan } from '../../../../src/sheets/acceptance';
import { drawLot } from '../../../../src/sheets/acceptance/setup';
import { ageingPlan } from '../../../../src/sheets/ageing';
import { defaultAgeing } from '../../../../src/sheets/ageing/setup';
import { batchPlan } from '../../../../src/sheets/batch';
import type { BatchSetup } from '../../../../src/sheets/batch/setup';
import type { Book } from '../../../../src/sheets/book';
import { certificatePlan } from '../../../../src/sheets/certificate';
import { type ComparedRun, comparisonPlan, DEFAULT_COMPARISON } from '../../../../src/sheets/comparison';
import { EXAMPLE_OFFERS, EXAMPLE_ROOMS, EXAMPLE_USE } from '../../../../src/sheets/example/network';
import { addressesOf } from '../../../../src/sheets/filled';
import { defaultRoom, needPlan } from '../../../../src/sheets/need';
import { offersPlan } from '../../../../src/sheets/offers';
import type { Plan } from '../../../../src/sheets/plan';
import { bookOf } from '../../../../src/sheets/realize';
import { runPlan } from '../../../../src/sheets/run';
import { defaultRunSetup, type RunSetup } from '../../../../src/sheets/runsetup';
import { writeXlsx } from '../../../../src/xlsx';
import * as examples from '../../../audit/examples';
import { batchSetup, typed as typedRows } from '../../../sheets/batchcases';
import { comparedRun } from '../../../sheets/comparedruns';
import { filled, type RandomRun, random, randomRun } from '../../../sheets/randomrun';

const HERE = join(import.meta.dirname, '..');
const ROOT = join(HERE, '..', '..', '..');
const { smallRun, typed } = examples;
const book = (...plans: Plan[]): Book => calculateBook(bookOf(plans));

/** The first invented run whose set-up is as asked. */
function seeded(isWanted: (setup: RunSetup) => boolean): RandomRun {
  for (let seed = 1; ; seed++) {
    const run = randomRun(seed);
    if (isWanted(run.setup)) return run;
  }
}

/** The same with every field of the head filled in. */
function headed({ setup, typed: readings }: RandomRun, id: string, serial: string): Plan {
  const whole: RunSetup = {
    ...setup,
    serial,
    mode: 'Standard, full power',
    place: 'Hillside Library, reading room (invented)',
    measuredBy: 'A. Person (invented)',
    date: '2026-03-02',
    meter: { ...setup.meter, name: 'Meter 1 (invented)', calibratedOn: '2026-01-15' },
  };
  return filled({ setup: whole, plan: runPlan(whole, id), typed: readings });
}

const isFullest = ({ ambient, black, checkerboard, corners, repeats, rated }: RunSetup) =>
  ambient === 'nine points' && black && checkerboard && corners && repeats > 1 && rated.colour !== undefined;
const tiledRun = () =>
  headed(
    seeded((s) => isFullest(s) && s.colour === 'tiled patterns' && s.image.shape === 'four sides'),
    'fulltiled1',
    '0042',
  );
const fullFieldsRun = () =>
  headed(
    seeded((s) => isFullest(s) && s.colour === 'full fields' && s.uncertainty.spectral !== undefined),
    'fullfields1',
    '0043',
  );

function plainestRun(): Plan {
  const setup: RunSetup = {
    ...defaultRunSetup(),
    projector: 'Unit 9 (invented)',
    colour: 'none',
    ambient: 'none',
    black: false,
  };
  return typed(runPlan(setup, 'plainest1'), {
    WhiteReadings: [611, 655, 604, 702, 741, 699, 590, 640, 598],
    LastReading: [739],
  });
}

const batchOf = (id: string, setup: Partial<BatchSetup>, values: Parameters<typeof typedRows>[1]) =>
  book(typedRows(batchPlan({ ...batchSetup(setup), ...setup }, id), values));

/** Readings of units that differ, drawn with a seed; each field has its share of white. */
function rowsOf(units: number, shares: readonly number[], points: number): number[][] {
  const draw = random(200);
  return Array.from({ length: units }, () => {
    const level = 75 + 20 * draw();
    return shares.flatMap((share) =>
      Array.from({ length: points }, () => Math.max(1, Math.round(share * level * (0.85 + 0.2 * draw())))),
    );
  });
}
const SHARES = [1, 0.22, 0.62, 0.09];
const BUDGET = { stated: {}, lines: 6 } as const;

function plainAcceptance(): Book {
  const serials = Array.from({ length: 8 }, (_, i) => `K-${i + 1}`);
  const drawn = drawLot({
    lot: 'Delivery of 8 (invented)',
    serials,
    aql: 6.5,
    seed: '1 2 3',
    drawnBy: '',
    drawnOn: '',
    leastWhite: 2000,
    counting: 'value',
  });
  if (!drawn.ok) throw new Error('no draw');
  const isDrawn = (serial: string) => drawn.value.draw.drawn.some((one) => one.serial === serial);
  return book(
    typed(acceptancePlan(drawn.value, 'lotplain1'), {
      UnitWhite: serials.map((serial, i) => (isDrawn(serial) ? 2100 + 10 * i : undefined)),
    }),
  );
}

function compared(runs: readonly Plan[], more: Partial<ComparedRun> = {}): Book {
  const { sheets } = bookOf(runs);
  const columns = runs.map((plan, i) => ({ ...comparedRun(plan, sheets[i]!.name), ...more }));
  const made = comparisonPlan(columns, DEFAULT_COMPARISON, 'cmp1');
  if (!made.ok) throw new Error(JSON.stringify(made));
  return book(...runs, made.value);
}

function certified(plan: Plan, number: string, issuedBy: string, id: string): Book {
  const run = { sheet: bookOf([plan]).sheets[0]!.name, addresses: addressesOf(plan) };
  return book(plan, certificatePlan({ run, number, issuedBy }, id));
}

/** All paragraphs of a tender. */
function wording() {
  const words = tender({
    white: 3210,
    colour: 3210,
    standard: 'ISO/IEC 21118:2020, Annex B',
    conditions: ['The room is dark (invented).'],
    fraction: 0.8,
    rule: 'no guard band',
  });
  if (!words.ok) throw new Error('no wording');
  return words.value;
}

const FILES: Readonly<Record<string, () => Book>> = {
  'run-plainest': () => book(plainestRun()),
  'run-fullest-tiled': () => book(tiledRun()),
  'need-plainest': () =>
    book(needPlan({ rooms: [defaultRoom('Reading room (invented)')], spare: 0 }, 'needplain1')),
  'need-fullest': () =>
    book(
      needPlan(
        {
          rooms: [
            ...EXAMPLE_ROOMS,
            {
              ...defaultRoom('=1+1'),
              ambient: 35,
              luminance: 90,
              contrast: 22,
              ownContrast: 900,
              gain: 1.2,
              ageing: 0.65,
              mode: 0.9,
              colourPart: 0.95,
            },
          ],
          spare: 2,
          wording: wording(),
        },
        'needfull1',
      ),
    ),
  'offers-plainest': () =>
    book(
      offersPlan(
        {
          asked: { white: 2610, colour: 2400 },
          use: {},
          offers: [{ bidder: 'Offer one (invented)', white: 3100 }],
          spare: 0,
        },
        'offersplain1',
      ),
    ),
  'offers-fullest': () =>
    book(
      typed(
        offersPlan(
          {
            asked: { white: 2610, colour: 2400 },
            use: EXAMPLE_USE,
            offers: [
              ...EXAMPLE_OFFERS,
              { bidder: '=1+1', white: 2500, colour: 2400, price: 610, currency: 'SEK' },
            ],
            spare: 2,
          },
          'offersfull1',
        ),
        { ChosenOffer: [EXAMPLE_OFFERS[0]!.bidder] },
      ),
    ),
  'spot-fullest': () => examples.EXAMPLES.spot!(),
  'ageing-plainest': () =>
    book(
      ageingPlan(
        {
          ...defaultAgeing('Lamp (invented)'),
          points: [
            { hours: 0, output: 3010 },
            { hours: 900, output: 2800 },
          ],
        },
        'ageingplain1',
      ),
    ),
  'ageing-fullest': () =>
    book(
      ageingPlan(
        {
          ...defaultAgeing('Reading room unit (invented)'),
          serial: '0042',
          mode: 'Bright',
          needed: 2000,
          stated: 3000,
          hoursPerYear: 1200,
          level: 0.99,
          points: Array.from({ length: 8 }, (_, i) => ({
            hours: 150 * i,
            output: Math.round(3010 * Math.exp(-5e-5 * 150 * i) + 14 * Math.sin(3 * i)),
            expanded: 120,
            date: `20${24 + Math.floor(i / 12)}-${String((i % 12) + 1).padStart(2, '0')}-02`,
            remark: `Run ${i + 1} (invented)`,
          })),
        },
        'ageingfull1',
      ),
    ),
  'acceptance-plainest': plainAcceptance,
  'comparison-plainest': () =>
    compared([smallRun('small1', 'Unit 1'), smallRun('small2', 'Anna’s unit', 25)]),
  'comparison-fullest': () => compared([tiledRun(), smallRun('small1', 'Unit 1')], { price: 700 }),
  'certificate-plainest': () => certified(plainestRun(), '', '', 'certplain1'),
  'certificate-fullest': () => certified(fullFieldsRun(), '7', 'Library network (invented)', 'certfull1'),
  'overview-plainest': () => examples.EXAMPLES.overview!(),
  'batch-white-plainest': () =>
    batchOf('batchplain1', { lines: 2, ambient: 'none', stated: {} }, { Readings: rowsOf(2, [1], 9) }),
  'batch-white-fullest': () =>
    batchOf(
      'batchfull1',
      {
        ...BUDGET,
        ambient: 'by row',
        image: {
          shape: 'four sides',
          unit: 'cm',
          top: 200,
          right: 126,
          bottom: 201,
          left: 125,
          falling: 237,
          rising: 236,
        },
        uncertainty: {
          ...defaultRunSetup().uncertainty,
          meterClass: 'B',
          ofReading: 0.03,
          digits: 4,
          width: 3,
          height: 3,
          square: 0.002,
          ambient: 0.2,
          other: 0.01,
          rule: 'guard band U: four outcomes',
        },
      },
      { Readings: rowsOf(5, [1], 9), AmbientReadings: [[2], [3], [2], [4], [3]] },
    ),
  'batch-centre-colours': () => examples.EXAMPLES['batch, the centre in each colour']!(),
  'batch-20-units': () =>
    batchOf(
      'batch20',
      { lines: 20, readings: 'nine points in each colour', ambient: 'once', stated: {} },
      { Readings: rowsOf(20, SHARES, 9), AmbientReadings: [[3]], AmbientRange: [[1]] },
    ),
};

it.each(Object.entries(FILES))('%s', async (name, make) => {
  writeFileSync(join(HERE, `${name}.xlsx`), await writeXlsx(make()));
});

/** The command line, in a folder. */
function light(folder: string, ...args: string[]): string {
  const { status, stdout, stderr } = spawnSync('node', [join(ROOT, 'src', 'cli', 'run.mjs'), ...args], {
    cwd: folder,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`light ${args.join(' ')}: ${stdout}${stderr}`);
  return stderr;
}

it('what the command line makes', () => {
  const folder = mkdtempSync(join(tmpdir(), 'frozen-'));
  const at = (name: string) => join(HERE, `${name}.xlsx`);
  light(folder, 'example', at('example-command-line'), '--force');

  const setup = {
    projector: 'Unit 7 (invented)',
    mode: 'bright',
    image: { shape: 'rectangle', known: 'height', length: 1.2, unit: 'm', across: 4, down: 3 },
    rated: { white: 1500 },
    colour: 'none',
    black: false,
  };
  writeFileSync(join(folder, 'run.json'), JSON.stringify(setup));
  writeFileSync(
    join(folder, 'run.csv'),
    'field;point;reading;range\nwhite;1;111,5;10\nwhite;2;112;10\nwhite;3;110;10\nwhite;4;115;10\nwhite;5;120;10\nwhite;6;114;10\nwhite;7;109;10\nwhite;8;112,5;10\nwhite;9;110;10\nambient;1;4;\nlast;1;119;10\n',
  );
  light(folder, 'build', 'run.json', 'run.csv', '-o', at('built-command-line'), '--force');

  // Run and certificate: the run sealed and signed, reopened on the record and sealed again; the certificate sealed.
  const certificate = readFileSync(at('certificate-fullest'));
  writeFileSync(join(folder, '0.xlsx'), certificate);
  const [run, paper] = certified(fullFieldsRun(), '7', '', 'any1').sheets.map(({ name }) => name);
  light(folder, 'key', 'mine');
  const who = ['--who', 'A. Person (invented)'];
  const signed = [...who, '--key', 'mine.private.jwk'];
  light(folder, 'seal', '0.xlsx', '--sheet', run!, ...signed, '-o', '1.xlsx');
  light(folder, 'reopen', '1.xlsx', '--sheet', run!, ...who, '--why', '=Looked at once more', '-o', '2.xlsx');
  light(folder, 'seal', '2.xlsx', '--sheet', run!, ...signed, '-o', '3.xlsx');
  light(folder, 'seal', '3.xlsx', '--sheet', paper!, ...who, '-o', at('sealed-command-line'), '--force');
  writeFileSync(join(HERE, 'sealed-command-line.public.jwk'), readFileSync(join(folder, 'mine.public.jwk')));
  light(folder, 'plain', at('sealed-command-line'), '-o', at('plain-copy-command-line'), ...who, '--force');
  rmSync(folder, { recursive: true });
  expect(true).toBe(true);
});
