import type { PlanBuilder } from '../builder';
import type { RunSetup } from '../runsetup';
import { BUDGET_RESULT, type BudgetId, budgetIds } from './budgetid';
import { colourLines, ratioLines, whiteLines } from './lines/light';
import { DOF_FORMAT, type Line } from './lines/line';
import { boardLines, contrastLines, luminanceLines, uniformityLines } from './lines/screen';
import { putResults } from './resultsblock';
import { trustFormula } from './trust';
import { uncertaintyResults } from './verdict';

const LINES: Readonly<Record<BudgetId, (setup: RunSetup) => Line[]>> = {
  White: whiteLines,
  Colour: colourLines,
  Ratio: ratioLines,
  Luminance: luminanceLines,
  Uniformity: uniformityLines,
  Contrast: contrastLines,
  Board: boardLines,
};

/** Writes the budgets and what follows from them, from `row` on; returns the first row below. */
export function putBudgets(b: PlanBuilder, start: number, setup: RunSetup): number {
  let row = start;
  for (const id of budgetIds(setup)) row = putBudget(b.part(row), row, id, LINES[id](setup));
  return putResults(b.part(row), row, uncertaintyResults(setup), {
    title: 'Uncertainty and decision',
    agreement: 'DecisionAgreement',
    last: 'P',
  });
}

function putBudget(b: PlanBuilder, row: number, id: BudgetId, rows: readonly Line[]): number {
  const { name, label, unit, parts } = BUDGET_RESULT[id];
  const [first, last] = [row + 1, row + rows.length];
  b.put(`A${row}`, { role: 'heading', value: `Budget, ${label}` });
  const heads = {
    B: '±',
    C: 'shape',
    D: 'divisor',
    E: 'u',
    H: 'ν',
    // A long unit leaves no room for the word.
    J: !unit || unit === ': 1' ? 'part' : unit.length > 3 ? unit : `part, ${unit}`,
    K: 'share',
  };
  for (const [column, value] of Object.entries(heads)) b.put(`${column}${row}`, { role: 'heading', value });
  b.wide(`L${row}:P${row}`, { role: 'heading', value: 'unit of ±' });
  b.wide(`F${row}:G${row}`, { role: 'heading', value: 'sensitivity' });
  b.put(`I${row}`, { role: 'heading' });
  rows.forEach((line, i) => {
    const r = first + i;
    // Until the result is there, its budget is empty; then every cell is a number.
    const when = (formula: string) => `=IF(ISNUMBER(${name}Plain),${formula},"")`;
    b.put(`A${r}`, { role: 'label', value: line.label });
    b.put(`B${r}`, { role: 'derived', formula: when(line.half), format: '0.0000' });
    b.put(`C${r}`, {
      role: 'derived',
      ...(line.shape ? { formula: `=${line.shape}` } : { value: line.kind }),
    });
    b.put(`D${r}`, {
      role: 'derived',
      formula: `=${line.divisor ?? (line.kind === 'rectangular' ? 'SQRT(3)' : '1')}`,
      format: '0.0000',
    });
    b.put(`E${r}`, { role: 'derived', formula: when(`B${r}/D${r}`), format: '0.00000' });
    b.wide(`F${r}:G${r}`, { role: 'derived', formula: when(line.sensitivity), format: '0.0000' });
    const dof = Number(line.dof);
    b.put(`H${r}`, {
      role: 'derived',
      ...(Number.isNaN(dof) ? { formula: `=${line.dof}` } : { value: dof }),
      format: DOF_FORMAT,
    });
    b.put(`J${r}`, {
      role: 'derived',
      formula: when(`E${r}*F${r}`),
      format: parts,
    });
    b.put(`K${r}`, { role: 'derived', formula: when(`J${r}^2/SUMSQ(J$${first}:J$${last})`), format: '0 %' });
    b.put(`L${r}`, { role: 'unit', value: line.unit });
  });
  b.innerName(`${id}Components`, `A${first}:A${last}`, `Budget of the ${label}: components`);
  b.innerName(
    `${id}Halves`,
    `B${first}:B${last}`,
    `Budget of the ${label}: half-widths or standard uncertainties`,
  );
  b.innerName(`${id}Shapes`, `C${first}:C${last}`, `Budget of the ${label}: distributions`);
  b.innerName(`${id}Sensitivities`, `F${first}:F${last}`, `Budget of the ${label}: sensitivities`);
  b.innerName(`${id}Nu`, `H${first}:H${last}`, `Budget of the ${label}: degrees of freedom`);
  b.name(`${id}Parts`, `J${first}:J${last}`, `Budget of the ${label}: u × sensitivity, signed`);
  b.innerName(`${id}Shares`, `K${first}:K${last}`, `Budget of the ${label}: share in the variance`);
  const trust = trustFormula(id);
  if (!trust) return last + 2;
  b.wide(`A${last + 1}:P${last + 1}`, { role: 'check', formula: `=${trust}` }).height(last + 1, 26);
  b.innerName(
    `${id}Trust`,
    `A${last + 1}`,
    `Whether U of the ${label}, which takes it for linear and for normal, is to be trusted`,
  );
  return last + 3;
}
