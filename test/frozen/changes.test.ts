import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ourSheets } from '../../src/audit/view';
import { readXlsx } from '../../src/xlsx';
import { changesOf } from '../audit/changes';
import { sealed } from '../audit/sealing';
import { grouped, Trial } from '../audit/trial';

const FIRST = join(import.meta.dirname, 'first');
it.each([
  'run-plainest',
  'need-plainest',
  'offers-plainest',
  'spot-fullest',
  'ageing-plainest',
  'acceptance-plainest',
  'certificate-plainest',
  'comparison-plainest',
  'batch-white-plainest',
  'overview-plainest',
])(
  '%s',
  async (file) => {
    const plain = await readXlsx(new Uint8Array(readFileSync(join(FIRST, `${file}.xlsx`))));
    const views = ourSheets(plain);
    const place = plain.sheets.indexOf(views.at(-1)!.sheet);
    const book = await sealed(plain, place);
    const sheet = book.sheets[place]!;
    const trial = new Trial(book, place);
    const each = Number(process.env.EACH ?? 7);
    const changes = [...changesOf(sheet)].filter((_c, i) => i % each === 0);
    const t = Date.now();
    const missed: string[] = [];
    for (const group of grouped(changes, sheet)) {
      const { check, seal } = await trial.missed(group);
      for (const { what, key } of check)
        missed.push(
          `check: ${what} ${key} ${sheet.cells[key]?.formula ?? ''} ${JSON.stringify(sheet.cells[key]?.value)}`,
        );
      for (const { what, key } of seal) missed.push(`seal: ${what} ${key}`);
    }
    writeFileSync(`/tmp/ol/missed-${file}.txt`, missed.join('\n'));
    console.log(file, changes.length, missed.length, Date.now() - t);
    expect(1).toBe(1);
  },
  240000,
);
