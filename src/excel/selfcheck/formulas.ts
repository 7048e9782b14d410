import { isSameFormula } from '../../audit/formula/normal';
import type { Found, Probe } from './probe';
import { compared, said } from './probe';
import { cellIn } from './scratch';

/* How formulas, numbers and texts come back. */

/**
 * Values of functions that our plain formulas lean on. HYPGEOMDIST is the exact fraction 1760 ÷ 4845; the others are
 * tabled in every handbook of statistics, their digits as general-purpose libraries give them.
 */
export const GOLDEN: readonly (readonly [formula: string, value: number])[] = [
  ['=TINV(0.05,10)', 2.228138851964939],
  ['=TDIST(2,10,2)', 0.0733880347707404],
  ['=NORMSINV(0.975)', 1.959963984540054],
  ['=NORMSDIST(1)', 0.8413447460685429],
  ['=HYPGEOMDIST(1,4,8,20)', 1760 / 4845],
];

export const FORMULA_PROBES: readonly Probe[] = [
  {
    id: 'formulas',
    title: 'Formulas come back as they were entered',
    expects: 'INDEX, a block of one cell, a small number, FALSE and the name of another sheet as entered',
    means:
      'A check may call formulas changed that nobody touched, and a seal may not hold in another program.',
    run: async (scratch) => {
      const block = scratch.block(5, 1);
      const entered = [
        `=INDEX($A$1:$A$3,2)`,
        '=SUM(B2:B2)',
        '=1E-9*2',
        '=IF(FALSE,1,2)',
        `='${scratch.sheet.replace(/'/g, "''")}'!$B$2`,
      ];
      const rows: Found[] = [];
      for (const [i, formula] of entered.entries()) {
        const { formula: read } = await scratch.enter(cellIn(block, i), formula);
        rows.push({
          came: said(read),
          isAsExpected: isSameFormula(String(read), formula, scratch.sheet),
        });
      }
      return {
        came: rows.map(({ came }) => came).join('; '),
        isAsExpected: rows.every(({ isAsExpected }) => isAsExpected),
      };
    },
  },
  {
    id: 'decimals',
    title: 'The decimal sign inside texts',
    expects: 'one and the same sign in ½ as a text and in FIXED',
    means:
      'Texts with figures in them, as on a certificate, may show two signs. The numbers themselves are not touched.',
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      const half = await scratch.enter(cellIn(block), '=MID(1/2,2,1)&""');
      const fixed = await scratch.enter(cellIn(block, 0, 1), '=MID(FIXED(1.5,1),2,1)');
      return {
        came: `½: ${said(half.value)}; FIXED: ${said(fixed.value)}`,
        isAsExpected: half.value === fixed.value && /^[.,]$/.test(String(half.value)),
      };
    },
  },
  {
    id: 'statistics',
    title: 'Statistical functions of the program',
    expects: `${GOLDEN.map(([formula]) => formula.slice(1)).join(', ')} to eight digits`,
    means:
      'Coverage factors and probabilities of the plain formulas are off; trust the LIGHT functions and report it.',
    run: async (scratch) => {
      const block = scratch.block(GOLDEN.length, 1);
      const found: Found[] = [];
      for (const [i, [formula, expected]] of GOLDEN.entries()) {
        const { value } = await scratch.enter(cellIn(block, i), formula);
        const isNear = typeof value === 'number' && Math.abs(value / expected - 1) < 1e-8;
        found.push({ came: `${formula.slice(1)} = ${said(value)}`, isAsExpected: isNear });
      }
      return {
        came: found.map(({ came }) => came).join('; '),
        isAsExpected: found.every(({ isAsExpected }) => isAsExpected),
      };
    },
  },
  {
    id: 'formats',
    title: 'Number formats come back, and show what they should',
    expects: 'every format of a run sheet as written; 1234.5 in “0.00” shows 1234.50 or 1234,50',
    means: 'Figures may show with other digits than planned, and a check may call formats changed.',
    run: async (scratch) => {
      const [{ runPlan }, { defaultRunSetup }] = await Promise.all([
        import('../../sheets/run'),
        import('../../sheets/runsetup'),
      ]);
      const plan = runPlan(defaultRunSetup(), 'selfcheck');
      const formats = [
        ...new Set(Object.values(plan.cells).flatMap(({ format }) => (format === undefined ? [] : [format]))),
        '0.00',
      ];
      const block = scratch.block(formats.length, 1);
      return scratch.on(async (sheet, context) => {
        const range = sheet.getRange(block);
        range.numberFormat = formats.map((format) => [format]);
        range.values = formats.map(() => [1234.5]);
        range.load('numberFormat,text');
        await context.sync();
        const changed = formats.filter((format, i) => range.numberFormat[i]![0] !== format);
        const shown = range.text.at(-1)![0]!;
        return {
          came: `${formats.length} formats, changed: ${changed.length === 0 ? 'none' : changed.map(said).join(', ')}; 1234.5 shows ${said(shown)}`,
          isAsExpected: changed.length === 0 && /^1234[.,]50$/.test(shown),
        };
      });
    },
  },
  {
    id: 'texts',
    title: 'A text that looks like a formula stays a text',
    expects: '“=1+1” and “16:9” as texts',
    means: 'What somebody typed as a name may become a number or a formula.',
    run: async (scratch) => {
      const block = scratch.block(1, 2);
      const sum = await scratch.enter(cellIn(block), "'=1+1");
      const ratio = await scratch.enter(cellIn(block, 0, 1), "'16:9");
      return compared([
        ['=1+1', sum.value, '=1+1'],
        ['16:9', ratio.value, '16:9'],
      ]);
    },
  },
];
