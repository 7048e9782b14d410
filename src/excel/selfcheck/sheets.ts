import type { Validation } from '../../sheets/book';
import { isBuiltIn } from '../../sheets/builtin';
import { PROTECTION } from '../protect';
import { validationOf } from '../rules';
import { writeValidation } from '../write';
import type { Probe } from './probe';
import { compared, said } from './probe';
import { cellIn } from './scratch';

/* What sheets carry beside their cells. */

const WORDS = {
  prompt: { title: 'Self-check', message: 'A rule that is read back.' },
  refusal: { title: 'Self-check', message: 'Not this.', style: 'stop' },
} as const;
const RULES: readonly Validation['rule'][] = [
  { type: 'number', min: 0, max: 200_000 },
  { type: 'number', max: 5 },
  { type: 'number', min: 1, max: 9, whole: true },
  { type: 'list', choices: ['lx', 'fc'] },
  { type: 'date', min: '2026-01-31' },
  { type: 'length', max: 100 },
  { type: 'formula', formula: '=LEN(A1)<10' },
];

/** The error code of some work, or "done". */
async function codeOf(work: () => Promise<unknown>): Promise<string> {
  try {
    await work();
    return 'done';
  } catch (error) {
    return String((error as { code?: unknown }).code ?? error);
  }
}

export const SHEET_PROBES: readonly Probe[] = [
  {
    id: 'rules',
    title: 'Input rules come back as they were set',
    expects:
      'each of seven rules: numbers with one bound and with two, whole numbers, a list, a date, a length, a formula',
    means: 'A check may call input rules altered that nobody touched.',
    run: async (scratch) => {
      const block = scratch.block(RULES.length, 1);
      const set = RULES.map((rule, i): Validation => ({ ...WORDS, range: cellIn(block, i), rule }));
      return scratch.on(async (sheet, context) => {
        for (const validation of set) writeValidation(sheet.getRange(validation.range), validation);
        await context.sync();
        const read = set.map(({ range }) =>
          sheet.getRange(range).dataValidation.load('rule,prompt,errorAlert,type'),
        );
        await context.sync();
        return compared(
          set.map(({ range, rule }, i) => [rule.type, validationOf(range, read[i]!)?.rule, rule] as const),
        );
      });
    },
  },
  {
    id: 'relative-rule',
    title: 'A rule with a formula counts from its first cell',
    expects: 'the same formula read back while another cell is selected',
    means: 'Rules that look at neighbours may look at the wrong ones.',
    run: async (scratch) => {
      const block = scratch.block(3, 3);
      const elsewhere = scratch.block(1, 1);
      const formula = `=LEN(${cellIn(block)})<10`;
      return scratch.on(async (sheet, context) => {
        sheet.activate();
        sheet.getRange(elsewhere).select();
        writeValidation(sheet.getRange(block), { ...WORDS, rule: { type: 'formula', formula } });
        await context.sync();
        const rule = sheet.getRange(block).dataValidation.load('rule');
        await context.sync();
        return compared([['rule', rule.rule.custom?.formula, formula]]);
      });
    },
  },
  {
    id: 'names',
    title: 'Names of a sheet, the program’s own among them',
    expects:
      'our two names, one of them hidden; names of print areas and filters are known as the program’s own',
    means: 'A seal made here may not hold on the command line, or a check may find names that nobody made.',
    run: async (scratch) => {
      const block = scratch.block(2, 2);
      return scratch.on(async (sheet, context) => {
        sheet.names.add('SelfCheckShown', sheet.getRange(block));
        sheet.names.add('SelfCheckHidden', '="self-check"');
        // As every name of ours is hidden: in the batch that adds it, it would stay visible in some programs.
        await context.sync();
        sheet.names.getItem('SelfCheckHidden').visible = false;
        sheet.pageLayout.setPrintArea(block);
        sheet.pageLayout.setPrintTitleRows('$1:$1');
        await context.sync();
        sheet.names.load('items/name,items/visible,items/scope');
        await context.sync();
        const local = sheet.names.items.filter(({ scope }) => scope === 'Worksheet');
        const ours = local.filter(({ name }) => !isBuiltIn(name));
        const own = local.filter(({ name }) => isBuiltIn(name)).map(({ name }) => name);
        const found = compared([
          [
            'ours',
            ours.map(({ name, visible }) => `${name}${visible ? '' : ' (hidden)'}`).sort(),
            ['SelfCheckHidden (hidden)', 'SelfCheckShown'],
          ],
        ]);
        return { ...found, came: `${found.came}; the program’s own: ${own.join(', ') || 'none told'}` };
      });
    },
  },
  {
    id: 'copy',
    title: 'A copied sheet keeps its names and formulas',
    expects: 'a formula by a name of the sheet gives the copy’s own value',
    means:
      'Copies of a run sheet may count the readings of the original. Build a fresh sheet in place of a copy.',
    needs: ['ExcelApi', '1.7'],
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      await scratch.on(async (sheet, context) => {
        sheet.names.add('SelfCheckCopied', sheet.getRange(cellIn(block)));
        await context.sync();
      });
      await scratch.enter(cellIn(block), 1);
      await scratch.enter(cellIn(block, 0, 1), '=SelfCheckCopied*10');
      return scratch.on(async (sheet, context) => {
        const copy = sheet.copy('End');
        copy.load('id');
        await context.sync();
        scratch.own(copy.id);
        const there = context.workbook.worksheets.getItem(copy.id);
        there.getRange(cellIn(block)).values = [[7]];
        await context.sync();
        const range = there.getRange(cellIn(block, 0, 1)).load('values');
        await context.sync();
        return compared([['the copy’s', range.values[0]![0], 70]]);
      });
    },
  },
  {
    id: 'file',
    title: 'A sheet from a file of ours',
    expects: 'the LIGHT formula and the INDEX formula as they were written',
    means: 'Files of the command line may need “Refresh results” once they are open.',
    needs: ['ExcelApi', '1.13'],
    run: async (scratch) => {
      const file = await scratch.smallFile();
      return scratch.on(async (_, context) => {
        const added = context.workbook.insertWorksheetsFromBase64(file, { positionType: 'End' });
        await context.sync();
        const ids = added.value;
        for (const id of ids) scratch.own(id);
        const range = context.workbook.worksheets.getItem(ids[0]!).getRange('B2:B3').load('formulas,values');
        await context.sync();
        const plain = range.formulas.map(([formula]) => String(formula).replace(/@/g, ''));
        const found = compared([
          ['LIGHT', plain[0], '=LIGHT.ILLUMINANCE(A2)'],
          ['INDEX', plain[1], '=INDEX(A2:A3,2)'],
        ]);
        return {
          ...found,
          came: `${found.came}; as told: ${range.formulas.map(([formula]) => said(formula)).join(', ')}; values ${range.values.map(([value]) => said(value)).join(', ')}`,
        };
      });
    },
  },
  {
    id: 'protection',
    title: 'Protection against slips',
    expects: 'an open cell takes a value, a locked one is refused (AccessDenied), unprotecting works',
    means: 'Either results can be overtyped, or repairs and “Refresh results” cannot lift the protection.',
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      await scratch.on(async (sheet, context) => {
        sheet.getRange(cellIn(block)).format.protection.locked = false;
        sheet.protection.protect(PROTECTION);
        await context.sync();
      });
      const write = (at: string) => () =>
        scratch.on(async (sheet, context) => {
          sheet.getRange(at).values = [[1]];
          await context.sync();
        });
      const unprotect = () =>
        scratch.on(async (sheet, context) => {
          sheet.protection.unprotect();
          await context.sync();
        });
      const open = await codeOf(write(cellIn(block)));
      const locked = await codeOf(write(cellIn(block, 0, 1)));
      const first = await codeOf(unprotect);
      const second = await codeOf(unprotect);
      const found = compared([
        ['open cell', open, 'done'],
        ['locked cell', locked, 'AccessDenied'],
        ['unprotect', first, 'done'],
      ]);
      return { ...found, came: `${found.came}; unprotect once more: ${second}` };
    },
  },
  {
    id: 'chart',
    title: 'A chart over numbers and over empty texts',
    expects: 'one series with both values',
    means: 'Charts on sheets may be missing or show noughts. The tables beside them hold.',
    needs: ['ExcelApi', '1.7'],
    run: async (scratch) => {
      const block = scratch.block(2, 3);
      await scratch.enter(cellIn(block), 1);
      await scratch.enter(cellIn(block, 1), '=""');
      return scratch.on(async (sheet, context) => {
        const chart = sheet.charts.add(
          'Line',
          sheet.getRange(`${cellIn(block)}:${cellIn(block, 1)}`),
          'Columns',
        );
        await context.sync();
        chart.series.load('items/name');
        await context.sync();
        const count = chart.series.items.length;
        chart.delete();
        await context.sync();
        return compared([['series', count, 1]]);
      });
    },
  },
  {
    id: 'page',
    title: 'Page set-up',
    expects: 'landscape and one page across, read back',
    means: 'Sheets may print on more pages than planned. Page set-up depends on the printer.',
    needs: ['ExcelApi', '1.9'],
    run: (scratch) =>
      scratch.on(async (sheet, context) => {
        const begun = performance.now();
        sheet.pageLayout.orientation = 'Landscape';
        sheet.pageLayout.zoom = { horizontalFitToPages: 1 };
        await context.sync();
        sheet.pageLayout.load('orientation,zoom');
        await context.sync();
        const found = compared([
          ['orientation', sheet.pageLayout.orientation, 'Landscape'],
          ['pages across', sheet.pageLayout.zoom.horizontalFitToPages, 1],
        ]);
        return { ...found, came: `${found.came}; ${Math.round(performance.now() - begun)} ms` };
      }),
  },
  {
    id: 'note',
    title: 'A note at a merged cell',
    expects: 'the note’s text, read back',
    means:
      'The notes behind results, with their definitions and sources, are missing. They stand in the help as well.',
    needs: ['ExcelApi', '1.18'],
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      return scratch.on(async (sheet, context) => {
        sheet.getRange(block).merge(false);
        sheet.notes.add(cellIn(block), 'Self-check');
        await context.sync();
        const note = sheet.notes.getItem(cellIn(block)).load('content');
        await context.sync();
        const { content } = note;
        return compared([['note', content, 'Self-check']]);
      });
    },
  },
  {
    id: 'events',
    title: 'The program tells of changes',
    expects: 'a change and a calculation within five seconds',
    means: 'The pane does not follow what is typed. Press “Look again”.',
    needs: ['ExcelApi', '1.9'],
    run: async (scratch) => {
      const at = scratch.block(1, 2);
      const heard = new Set<string>();
      const handlers = await scratch.on(async (_, context) => {
        const { worksheets } = context.workbook;
        const hear = (what: string) => async () => {
          heard.add(what);
        };
        const added = [
          worksheets.onChanged.add(hear('change')),
          worksheets.onCalculated.add(hear('calculation')),
        ];
        await context.sync();
        return added;
      });
      try {
        await scratch.enter(cellIn(at), 1);
        await scratch.enter(cellIn(at, 0, 1), `=${cellIn(at)}*2`);
        await scratch.enter(cellIn(at), 2);
        const until = Date.now() + EVENT_MS;
        while (heard.size < 2 && Date.now() < until) await new Promise((resolve) => setTimeout(resolve, 50));
      } finally {
        for (const handler of handlers)
          await Excel.run(handler.context, async (context) => {
            handler.remove();
            await context.sync();
          });
      }
      return compared([['heard', [...heard].sort(), ['calculation', 'change']]]);
    },
  },
];

const EVENT_MS = 5000;
