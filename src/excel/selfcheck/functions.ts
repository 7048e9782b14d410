import type { Probe } from './probe';
import { compared, said } from './probe';
import { cellIn } from './scratch';

/* How custom functions are called and what their results do in cells. */

const MATRIX = 'FINDINGS';

export const FUNCTION_PROBES: readonly Probe[] = [
  {
    id: 'first-result',
    title: 'Our functions are there',
    expects: '=LIGHT.ILLUMINANCE(100) gives 100',
    means:
      'Results by LIGHT functions do not come. The plain formulas beside them still hold. Close the workbook and open it again with the pane open.',
    run: async (scratch) => {
      const at = scratch.block(1, 1);
      const { value } = await scratch.enter(at, '=LIGHT.ILLUMINANCE(100)');
      return {
        came: `${said(value)}, ${Math.round(performance.now())} ms after the pane began to load`,
        isAsExpected: value === 100,
      };
    },
  },
  {
    id: 'error-class',
    title: 'Errors can carry words',
    expects: 'the program’s error class is there',
    means: 'Bad input shows a bare #VALUE! without the sentence that says what is wrong and where.',
    run: async () => {
      const kind = typeof (globalThis as { CustomFunctions?: { Error?: unknown } }).CustomFunctions?.Error;
      return { came: kind, isAsExpected: kind === 'function' };
    },
  },
  {
    id: 'missing',
    title: 'A missing reading is #N/A, a wrong one #VALUE!',
    expects: '#N/A, then #VALUE!',
    means:
      'A gap in the readings cannot be told from a slip by the error alone; read the remark beside the grid.',
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      const missing = await scratch.enter(cellIn(block), '=LIGHT.ILLUMINANCE("")');
      const wrong = await scratch.enter(cellIn(block, 0, 1), '=LIGHT.ILLUMINANCE("dark")');
      return compared([
        ['missing', missing.value, '#N/A'],
        ['wrong', wrong.value, '#VALUE!'],
      ]);
    },
  },
  {
    id: 'merged',
    title: 'A result in merged cells',
    expects: '100 in two merged cells',
    means:
      'Sheets built by earlier versions of this add-in, whose results stand in merged cells, show errors there.',
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      await scratch.on(async (sheet, context) => {
        sheet.getRange(block).merge(false);
        await context.sync();
      });
      const { value } = await scratch.enter(cellIn(block), '=LIGHT.ILLUMINANCE(100)');
      return compared([['merged', value, 100]]);
    },
  },
  {
    id: 'table',
    title: 'A function that gives a table fills its cells',
    expects: 'a width of 1.6 and below it a height of 0.9, each beside its word',
    means: 'Tables of batches, comparisons and ageing show one value or an error in place of a table.',
    run: async (scratch) => {
      const block = scratch.block(5, 4);
      await scratch.enter(cellIn(block), '=LIGHT.IMAGESIZE("width",1.6,"16:9")');
      const width = await scratch.settled(cellIn(block, 0, 1));
      const height = await scratch.settled(cellIn(block, 1, 1));
      return compared([
        ['width', round(width.value), 1.6],
        ['height', round(height.value), 0.9],
      ]);
    },
  },
  {
    id: 'arguments',
    title: 'What empty cells arrive as',
    expects:
      'an empty cell and a left-out argument arrive as 0, "" or nothing; an error as an error; a text as itself',
    means:
      'A missing reading could be taken for a number. The sheets count readings before they call a function, which holds all the same.',
    run: async (scratch) => {
      const block = scratch.block(3, 4);
      const cells = (column: number) => cellIn(block, 0, column);
      await scratch.enter(cells(1), '=""');
      await scratch.enter(cells(2), '=NA()');
      const heard = await scratch.calls(async () => {
        await scratch.enter(cellIn(block, 1), `=LIGHT.${MATRIX}("white",${cells(0)}:${cells(2)})`);
        await scratch.enter(cellIn(block, 2), `=LIGHT.ILLUMINANCE(${cells(0)})`);
      });
      const matrix = heard.find(({ id }) => id === MATRIX)?.raw[1] as unknown[][] | undefined;
      const scalar = heard.find(({ id }) => id === 'ILLUMINANCE')?.raw;
      const [empty, text, error] = matrix?.[0] ?? [];
      const isEmpty = (value: unknown) =>
        value === 0 || value === '' || value === null || value === undefined;
      return {
        came: `in a range: empty ${said(empty)}, "" ${said(text)}, error ${kindOf(error)}; one cell: empty ${said(scalar?.[0])}, left out ${said(scalar?.[1])}`,
        isAsExpected:
          matrix !== undefined &&
          scalar !== undefined &&
          isEmpty(empty) &&
          isEmpty(text) &&
          typeof error !== 'number' &&
          isEmpty(scalar[0]) &&
          isEmpty(scalar[1]),
      };
    },
  },
  {
    id: 'pending',
    title: 'Formulas around a function that is still under way',
    expects: 'IFERROR ends at the result, ISERROR at FALSE',
    means:
      'A check cell beside a result can keep what it showed while the function was under way. Use “Refresh results”.',
    run: async (scratch) => {
      const block = scratch.block(2, 2);
      await scratch.enter(cellIn(block), '=LIGHT.ILLUMINANCE(250)');
      const kept = await scratch.enter(cellIn(block, 0, 1), `=IFERROR(${cellIn(block)},-1)`);
      const error = await scratch.enter(cellIn(block, 1, 1), `=ISERROR(${cellIn(block)})`);
      await scratch.enter(cellIn(block), '=LIGHT.ILLUMINANCE(300)');
      const after = await scratch.settled(cellIn(block, 0, 1));
      const shown =
        kept.before.length === 0 ? '' : `; on the way it showed ${kept.before.map(said).join(', ')}`;
      const found = compared([
        ['IFERROR', kept.value, 250],
        ['ISERROR', error.value, false],
        ['after a change', after.value, 300],
      ]);
      return { ...found, came: found.came + shown };
    },
  },
  {
    id: 'mended',
    title: 'A mended input is calculated again',
    expects: 'an error first, then 1 for a mended input, by one or two calls',
    means: 'A result can stay an error after its input was mended. Use “Refresh results”.',
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      await scratch.enter(cellIn(block), 'dark');
      const first = await scratch.enter(cellIn(block, 0, 1), `=LIGHT.ILLUMINANCE(${cellIn(block)})`);
      let second = first;
      const heard = await scratch.calls(async () => {
        await scratch.enter(cellIn(block), 1);
        second = await scratch.settled(cellIn(block, 0, 1));
      });
      const found = compared([
        ['before', first.value, '#VALUE!'],
        ['after', second.value, 1],
      ]);
      return { ...found, came: `${found.came}; ${heard.length} calls` };
    },
  },
  {
    id: 'branch',
    title: 'The other branch of IF',
    expects: 'the value of its own branch; a call for the other one costs time and no more',
    means: 'Results may show where readings are not complete. Read the remarks beside the grids.',
    run: async (scratch) => {
      const at = scratch.block(1, 1);
      let value: unknown;
      const heard = await scratch.calls(async () => {
        ({ value } = await scratch.enter(at, '=IF(TRUE,"x",LIGHT.ILLUMINANCE(100))'));
      });
      return { came: `${said(value)}, ${heard.length} calls`, isAsExpected: value === 'x' };
    },
  },
  {
    id: 'spilled',
    title: 'What the cells of a table say of themselves',
    expects: 'the first cell tells its formula; the next one holds a number',
    means:
      '“Refresh results” could write over a table. It enters planned formulas only, which holds all the same.',
    run: async (scratch) => {
      const block = scratch.block(5, 4);
      const first = await scratch.enter(cellIn(block), '=LIGHT.IMAGESIZE("width",3.2,"16:9")');
      const next = await scratch.settled(cellIn(block, 0, 1));
      return {
        came: `first: formula ${said(first.formula)}, value ${said(first.value)}; next: formula ${said(next.formula)}, value ${said(next.value)} (${next.type})`,
        isAsExpected: String(first.formula).startsWith('=') && typeof next.value === 'number',
      };
    },
  },
];

/** Twelve digits, as some programs keep no more. */
function round(value: unknown): unknown {
  return typeof value === 'number' ? Number(value.toPrecision(12)) : value;
}

function kindOf(value: unknown): string {
  return typeof value === 'object' && value !== null ? `an object (${JSON.stringify(value)})` : said(value);
}
