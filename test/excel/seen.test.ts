import { expect, it } from 'vitest';
import { check } from '../../src/audit/check/check';
import { verify } from '../../src/audit/seal/verify';
import type { Host } from '../../src/excel/host';
import { EMPTY_SHEET } from '../../src/sheets/book';
import { writeXlsx } from '../../src/xlsx';
import { auditedBook } from '../../taskpane/trace/auditedbook';
import { lookIntoFile, withFileLook } from '../../taskpane/trace/filelook';
import { LIVE, type Stage } from '../audit/seen/live';
import { MADE } from '../audit/seen/made';
import { MORE } from '../audit/seen/more';
import { changedFile } from '../audit/seen/parts';
import { book, bytes, own, sealedOnce } from '../audit/seen/sealedsheet';
import { amount } from '../tools/amount';
import { createPaneHost } from './host';

/*
 * The changes of test/audit/seen in an open workbook, one after the other, each undone: by whom they are found as the
 * pane looks, its check of the whole workbook with the file that the program hands over.
 */

sealedOnce();

const ALL = [...MADE, ...MORE];
const { subtle } = crypto;

it('says of every change of a sealed sheet how it is made in an open workbook, or why not', () => {
  expect(Object.keys(LIVE).sort()).toEqual(ALL.map(({ what }) => what).sort());
});

/** What the pane tells of a sheet. */
async function looked(host: Host, sheet: string) {
  const cells = await auditedBook(host, [sheet]);
  const file = await lookIntoFile(host);
  const report = await verify(cells, sheet, { subtle });
  const { findings } =
    typeof file === 'string'
      ? await check(cells, { sheets: [sheet] })
      : await check(withFileLook(cells, file), { file: file.remarks, sheets: [sheet] });
  return {
    report,
    unread: typeof file === 'string' ? file : '',
    named: report.differences.map(({ group, key }) => `${group} ${key}`),
    findings,
  };
}

it(
  'a change of what is seen of a sealed sheet is found as the pane looks, or is outside for a reason',
  async () => {
    const { host: program, test } = await createPaneHost();
    await test.workbench.fromBook({
      ...book,
      sheets: [...book.sheets, { ...EMPTY_SHEET, name: 'Notes of a person' }],
    });
    await test.engine.calculation.settled();
    let file = async () => writeXlsx(await test.workbench.toBook());
    const asIs = file;
    const host: Host = Object.assign(Object.create(program) as Host, { file: () => file() });
    const id = await test.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem(own.name);
      sheet.load('id');
      await context.sync();
      return sheet.id;
    });
    let options: Excel.WorksheetProtectionOptions | undefined;
    const open = async <T>(work: (stage: Stage) => T, staysOpen = false): Promise<Awaited<T>> => {
      const done = await test.run(async (context) => {
        const sheet = context.workbook.worksheets.getItem(id);
        sheet.protection.load('protected,options');
        await context.sync();
        const { protection } = sheet;
        if (protection.protected) {
          options = protection.options;
          protection.unprotect();
        }
        const made = await work({ context, sheet, engine: test.engine });
        if (!staysOpen) protection.protect(options);
        await context.sync();
        return made;
      });
      await test.engine.calculation.settled();
      return done;
    };
    const nameNow = () =>
      test.run(async (context) => {
        const sheet = context.workbook.worksheets.getItem(id);
        sheet.load('name');
        await context.sync();
        return sheet.name;
      });

    const before = await looked(host, own.name);
    expect(before).toMatchObject({ report: { state: 'holds' }, named: [], unread: '' });
    const usual = new Set(before.findings.map(({ message }) => message));
    expect(before.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);

    const wrong: string[] = [];
    const each = amount(8, 1);
    for (const [at, made] of ALL.entries()) {
      const live = LIVE[made.what]!;
      if (at % each !== 0 || 'never' in live) continue;
      const isInFile = 'inFile' in live;
      const undo = isInFile ? undefined : await open(live.make, live.staysOpen);
      file = isInFile ? async () => changedFile(made) : asIs;
      const { report, named, findings, unread } = await looked(host, await nameNow());
      const told = findings.map(({ message }) => message).filter((message) => !usual.has(message));
      const say = (what: string) =>
        wrong.push(
          `${made.what}: ${what} (${[report.state, ...report.reasons, ...named.slice(0, 5), ...told.slice(0, 3), unread].join('; ')})`,
        );
      if (isInFile) {
        if (made.refused ? !made.refused.test(unread) : unread !== '') say('the file');
        if (made.check && !made.refused && !told.some((each) => made.check!.test(each))) say('the check');
        if (!made.check && !made.refused && !made.outside) say('nothing to find');
      } else {
        if (live.seal ? !named.some((each) => live.seal!.test(each)) : !live.damaged && named.length > 0)
          say('the seal');
        // A result is told with all that follows from it, of rules without a layout all.
        if (named.filter((each) => !/^(?:result|rule)/.test(each)).length > 4) say('too much');
        if (live.damaged && !live.damaged.test(report.reasons.join(' '))) say('the damage');
        if (live.check && !told.some((each) => live.check!.test(each))) say('the check');
        if (!(live.seal ?? live.damaged ?? live.check ?? live.outside)) say('nothing to find');
        if (live.outside && told.length + named.length > 0) say('not outside');
      }
      for (const { sheet } of findings) if (sheet !== '' && sheet !== (await nameNow())) say('leads nowhere');
      if (undo) await open(undo);
    }
    expect(wrong).toEqual([]);
    file = asIs;
    expect(await looked(host, own.name)).toMatchObject({ report: { state: 'holds' }, named: [], unread: '' });
    expect(bytes.length).toBeGreaterThan(0);
  },
  amount(240_000, 1_200_000),
);
