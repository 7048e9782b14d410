import { lostSeals } from '../../audit/seal/lost';
import { STATEMENT, sealText } from '../../audit/seal/text';
import { type SealReport, verify as verifySheet } from '../../audit/seal/verify';
import { ourSheets } from '../../audit/view';
import { csvText } from '../../csv/write';
import { EXIT, type Exit } from '../failure';
import { readBook } from '../files';
import { type CommandLine, oneFile } from '../options';
import { print, printJson, progress, say } from '../output';
import { judgedOf } from '../sheets';
import { readPublicKey } from './keys';

/** Whether the seals of a file hold. A sheet asked for by name must have one; others may be without. */
export async function verify(line: CommandLine): Promise<Exit> {
  const path = oneFile(line);
  const expectedKey = line.key === undefined ? undefined : await readPublicKey(line.key);
  const book = await readBook(path);
  const chosen = judgedOf(book, ourSheets(book), { path, sheets: line.sheets }).map(
    ({ sheet }) => sheet.name,
  );
  const reports: SealReport[] = [];
  for (const [at, sheet] of chosen.entries()) {
    progress(`${at + 1} of ${chosen.length}: ${sheet}`);
    reports.push(
      await verifySheet(book, sheet, { subtle: crypto.subtle, ...(expectedKey ? { expectedKey } : {}) }),
    );
  }
  progress('');
  const lost = lostSeals(book);
  if (line.format === 'json')
    printJson([
      ...lost.map((reason) => ({ sheet: '', state: 'lost', reasons: [reason] })),
      ...reports.map(({ record, ...report }) => ({ ...report, seal: short(record) })),
    ]);
  else if (line.format === 'csv')
    print(
      csvText([
        COLUMNS,
        ...lost.map((reason) => ['', 'lost', '', '', '', '', '', reason]),
        ...reports.flatMap(rowsOf),
      ]),
    );
  else
    print(
      [
        ...(lost.length > 0 ? [`${['The workbook: A SEAL HAS NO SHEET', ...lost].join('\n  ')}\n`] : []),
        ...reports.map(sealText),
      ].join('\n'),
    );
  if (line.format === 'text') say(STATEMENT);
  const isSealed = reports.some(({ state }) => state !== 'none');
  const isAsked = line.sheets.length > 0;
  const holds = reports.every(
    ({ state }) => state === 'holds' || state === 'not calculated' || (state === 'none' && !isAsked),
  );
  return isSealed && holds && lost.length === 0 ? EXIT.holds : EXIT.findings;
}

/** A record without its marks, which are of no use to a reader. */
function short(record: SealReport['record']) {
  if (!record) return null;
  const { marks, ...rest } = record;
  return rest;
}

const COLUMNS = ['sheet', 'state', 'signature', 'group', 'key', 'change', 'now', 'reason'];
function rowsOf({ sheet, state, signature, differences, reasons }: SealReport): string[][] {
  const rows = [
    ...reasons.map((reason) => [sheet, state, signature, '', '', '', '', reason]),
    ...differences.map(({ group, key, change, now }) => [
      sheet,
      state,
      signature,
      group,
      key,
      change,
      now,
      '',
    ]),
  ];
  return rows.length > 0 ? rows : [[sheet, state, signature, '', '', '', '', '']];
}
