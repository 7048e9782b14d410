import type { PlanBuilder } from '../builder';
import { joined } from '../joined';
import { linkTo, linkToAll } from '../link';
import { reportedText } from '../reported';
import { BUDGET_RESULT, type BudgetId } from '../run/budgetid';
import { FORMAT } from '../run/layout';
import { isRuled, largest } from '../run/trust';
import type { CertifiedRun } from './run';
import { SEAL_SENTENCES } from './seal';

const RESULTS = [
  { id: 'White', label: 'White light output, lm', value: 'WhiteLightOutputPlain' },
  { id: 'Colour', label: 'Colour light output, lm', value: 'ColourLightOutputPlain' },
  { id: 'Ratio', label: 'Colour to white ratio', value: 'ColourToWhitePlain' },
] as const;

/** Results with U, and the decision on each; rounded as people report them. Returns the first row below. */
export function putResults(b: PlanBuilder, row: number, run: CertifiedRun): number {
  ['Result', 'value', '± U', 'k', 'limit, lm', 'decision'].forEach((value, i) => {
    b.put(`${'ABCDEF'[i]}${row}`, { role: 'heading', value });
  });
  let r = row + 1;
  const values: string[] = [];
  for (const { id, label, value } of RESULTS) {
    const [y, u, k] = [linkTo(run, value), linkTo(run, `${id}ExpandedPlain`), linkTo(run, `${id}KPlain`)];
    if (!y || !u || !k) continue;
    const limit = linkTo(run, `${id}LimitPlain`);
    const verdict = linkTo(run, `${id}VerdictPlain`);
    const reported = (figure: string) =>
      `=IF(COUNT(${y},${u})<2,"waiting",IF(${u}<=0,${figure},${reportedText(figure, u)}))`;
    b.put(`A${r}`, { role: 'label', value: label });
    b.put(`B${r}`, { role: 'result', formula: reported(y) });
    b.put(`C${r}`, { role: 'result', formula: reported(u) });
    b.put(`D${r}`, { role: 'derived', formula: `=${k}`, format: '0.00' });
    b.put(
      `E${r}`,
      limit ? { role: 'derived', formula: `=${limit}`, format: FORMAT.lumens } : { role: 'derived' },
    );
    b.put(`F${r}`, verdict ? { role: 'result', formula: `=${verdict}` } : { role: 'result' });
    b.name(`Certified${id}`, `B${r}`, `${label}, as reported`).name(
      `Certified${id}U`,
      `C${r}`,
      `Expanded uncertainty of it, as reported`,
    );
    if (verdict) b.name(`Certified${id}Decision`, `F${r}`, `Decision, ${label}`);
    values.push(y, u);
    r++;
  }
  const [rule, level, least] = ['DecisionRule', 'Level', 'MinimumFraction'].map((name) => linkTo(run, name));
  b.wide(`A${r}:F${r}`, {
    role: 'note',
    formula: `="U is the expanded uncertainty at a level of "&${joined(`ROUND(100*${level},2)`)}&" %. Decided by the rule fixed in the set-up of the run, “"&${rule}&"” (ILAC-G8:09/2019), against "&${joined(`ROUND(100*${least},2)`)}&" % of the rated value."${ruledWords(run)}`,
  }).height(r, 54);
  b.name('CertifiedCount', `A${r + 1}`, 'Whether every result is there');
  b.wide(`A${r + 1}:F${r + 1}`, {
    role: 'caution',
    formula: stateOf(values, linkToAll(run, 'Agreement')),
  });
  return r + 2;
}

/** Of a light output that one bound rules: k = 2 is then more than its level asks for. */
function ruledWords(run: CertifiedRun): string {
  const [ofReading, statement] = [linkTo(run, 'MeterOfReading'), linkTo(run, 'MeterStatement')];
  return (['White', 'Colour'] as const)
    .map((id) => {
      const [shares, components] = [linkToAll(run, `${id}Shares`), linkToAll(run, `${id}Components`)];
      if (!shares || !components || !ofReading || !statement) return '';
      const words = `" Of ${id.toLowerCase()} one bound, “"&${largest(shares, components)}&"”, makes most of the variance: its U is up to 17 % too wide."`;
      return `&IF(COUNT(${shares})=0,"",IF(${isRuled({ shares, components, ofReading, statement })},${words},""))`;
    })
    .join('');
}

/** What a certificate says of itself, the first that holds. */
export const CERTIFICATE_STATES = {
  waiting: 'DRAFT: results are waiting for readings. Not to be signed.',
  unstated: 'DRAFT: meter, person or date is not stated on the run sheet. Not to be signed.',
  differing: 'DRAFT: function and plain formula differ on the run sheet. Not to be signed.',
  unsealed: 'NOT TO BE SIGNED: see below what became of the seal of the run sheet.',
  complete: 'Complete: every result above is there, with meter, person and date.',
} as const;

/** @param values what has to be a number @param agreement cells that say whether function and plain formula agree */
function stateOf(values: readonly string[], agreement: string | undefined): string {
  const { waiting, unstated, differing, unsealed, complete } = CERTIFICATE_STATES;
  const isUnstated = ['Meter', 'MeasuredBy', 'MeasuredOn'].map((name) => `${name}="not stated"`).join(',');
  const isUnsealed = ['changed', 'broken'] as const;
  const seals = isUnsealed.map((state) => `SealState="${SEAL_SENTENCES[state]}"`).join(',');
  const sealed = `IF(OR(${seals}),"${unsealed}","${complete}")`;
  const agreed =
    agreement === undefined ? sealed : `IF(COUNTIF(${agreement},"differ")>0,"${differing}",${sealed})`;
  return `=IF(COUNT(${values.join(',')})<${values.length},"${waiting}",IF(OR(${isUnstated}),"${unstated}",${agreed}))`;
}

/** What else was found: its name on the run sheet, how it looks without U, and its budget. */
const OTHERS: readonly (readonly [label: string, name: string, format: string, id?: BudgetId])[] = [
  ['Least to greatest of nine', 'UniformityMinMaxPlain', FORMAT.percent, 'Uniformity'],
  ['Mean illuminance, lx', 'WhiteIlluminancePlain', FORMAT.lux],
  ['Screen luminance, cd/m²', 'ScreenLuminancePlain', FORMAT.luminance, 'Luminance'],
  ['Contrast, full white : black', 'SequentialContrastPlain', '#,##0', 'Contrast'],
  ['Contrast within one picture', 'BoardContrastPlain', '0.0', 'Board'],
];

/** `360 ± 44`, `(80.5 ± 2.7) %`; the bare value while there is no U, and of a bound, which has none. */
function withU(y: string, u: string, isPercent: boolean): string {
  const [value, doubt] = isPercent ? [`(100*${y})`, `(100*${u})`] : [y, u];
  const rounded = (figure: string) => reportedText(figure, doubt);
  const [open, close] = isPercent ? ['"("&', '&") %"'] : ['', ''];
  return `IF(COUNT(${y},${u})<2,${y},IF(${u}<=0,${y},${open}${rounded(value)}&" ± "&${rounded(doubt)}${close}))`;
}

/** The nine net illuminances as they lie on the screen, and what else was found. Returns the first row below. */
export function putMap(b: PlanBuilder, row: number, run: CertifiedRun): number {
  b.wide(`A${row}:C${row}`, {
    role: 'heading',
    value: 'White, net illuminance, lx, as seen facing the screen',
  });
  b.wide(`D${row}:F${row}`, { role: 'heading', value: 'Also found' });
  for (let i = 0; i < 9; i++) {
    const [down, across] = [Math.floor(i / 3), i % 3];
    const link = linkTo(run, 'WhiteNet', down, across);
    b.put(`${'ABC'[across]}${row + 1 + down}`, {
      role: 'derived',
      format: '#,##0',
      ...(link ? { formula: `=${link}` } : {}),
    });
  }
  for (let r = row + 1; r <= row + 3; r++) b.height(r, 26);
  const map = `A${row + 1}:C${row + 3}`;
  b.scale({ range: map, low: '#C9D6E8', middle: '#F4F1E6', high: '#F2C879' });
  b.name('CertifiedMap', map, 'Net illuminances of white, lx');
  const found = OTHERS.flatMap(([label, name, format, id]) => {
    const link = linkTo(run, name);
    if (!link) return [];
    const u = id && linkTo(run, `${id}ExpandedPlain`);
    return [{ label, format, id, formula: u ? withU(link, u, BUDGET_RESULT[id].isPercent === true) : link }];
  });
  found.forEach(({ label, format, id, formula }, i) => {
    const at = `F${row + 1 + i}`;
    b.wide(`D${row + 1 + i}:E${row + 1 + i}`, { role: 'label', value: label });
    b.put(at, { role: 'derived', formula: `=${formula}`, format });
    if (id) b.name(`Certified${id}`, at, `${label}, as reported`);
  });
  return row + 1 + Math.max(3, found.length);
}
