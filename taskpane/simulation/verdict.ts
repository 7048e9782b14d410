import { reportText } from '../../src/metrology/report';
import { BUDGET_RESULT } from '../../src/sheets/run/budgetid';
import type { SureFigure } from '../run/sure';
import type { ModelFigures, Opinion } from './opinion';

/** The sheet's figures beside the model's and the simulation's. */
export interface Comparison {
  readonly rows: readonly ComparisonRow[];
  /** One line: whether all three agree. */
  readonly verdict: string;
  readonly agrees: boolean;
  /** Where they do not, and what to use instead. */
  readonly remarks: readonly string[];
}

export interface ComparisonRow extends ModelFigures {
  readonly label: string;
  readonly unit: string;
  readonly sheet: SureFigure | undefined;
}

/** Sheet and model compute the same from the same readings, in two ways; more apart than this is a fault, not rounding. */
const SAME = 1e-6;
/** A simulated u larger than this has a reason that is worth a line. */
const NEAR = 0.01;

/** Holds an opinion against what the sheet says. */
export function compareOpinion({ figures }: Opinion, sheet: readonly SureFigure[]): Comparison {
  const rows = figures.map((figure) =>
    rowOf(
      figure,
      sheet.find(({ id }) => id === figure.id),
    ),
  );
  const faults = rows.flatMap(({ sheet: own, label, u, expanded, value }) => {
    if (!own) return [];
    const differs = [
      [own.value, value],
      [own.u, u],
      [own.expanded, expanded],
    ].some(([a, b]) => Math.abs(a! - b!) > SAME * Math.abs(b!));
    return differs
      ? [
          `${sentence(label)}: the sheet has ${pair(own.value, own.expanded)}, the model ${pair(value, expanded)}. Do not use the result before the cause is found.`,
        ]
      : [];
  });
  const about = (chosen: (row: ComparisonRow) => boolean, words: string) => {
    const labels = rows.filter(chosen).map(({ label }) => label);
    return labels.length > 0 ? [`${sentence(listed(labels))}: ${words}`] : [];
  };
  const bentRows = rows.filter(({ isNearLinear }) => !isNearLinear).map(({ label }) => label);
  const bent = [
    ...about(
      ({ isNearLinear, id }) => !isNearLinear && id !== 'Uniformity',
      'over so large a doubt the model is not near linear; use the simulated interval.',
    ),
    ...about(
      ({ isNearLinear, id }) => !isNearLinear && id === 'Uniformity',
      'scatter may decide which of the nine points are the darkest and the brightest; the simulation looks for them in every trial, so use its interval.',
    ),
  ];
  const shapes = about(
    ({ isNearLinear, intervalsAgree }) => isNearLinear && !intervalsAgree,
    'the ends of y \u00b1 U and of the simulated interval lie apart by more than half a unit of the second digit of u, because the doubt is not bell-shaped; the simulated interval is the truer one.',
  );
  const wide = about(
    ({ isNearLinear, simulatedU, u }) => isNearLinear && simulatedU > (1 + NEAR) * u,
    'few repeats tell little of the scatter; the simulation counts that into u, the sheet into k.',
  );
  return {
    rows,
    agrees: faults.length === 0,
    verdict: verdict(faults.length, bentRows, shapes.length),
    remarks: [...faults, ...bent, ...shapes, ...wide],
  };
}

/** What people speak of in per cent is shown so, with its sheet's figure. */
function rowOf(figure: ModelFigures, sheet: SureFigure | undefined): ComparisonRow {
  const { label, unit, isPercent } = BUDGET_RESULT[figure.id];
  if (!isPercent) return { ...figure, label, unit, sheet };
  const percent = (n: number) => 100 * n;
  const both = ({ low, high }: ModelFigures['symmetric']) => ({ low: percent(low), high: percent(high) });
  return {
    ...figure,
    label,
    unit: '%',
    value: percent(figure.value),
    u: percent(figure.u),
    expanded: percent(figure.expanded),
    simulatedU: percent(figure.simulatedU),
    symmetric: both(figure.symmetric),
    shortest: both(figure.shortest),
    tolerance: percent(figure.tolerance),
    sheet: sheet && {
      ...sheet,
      value: percent(sheet.value),
      u: percent(sheet.u),
      expanded: percent(sheet.expanded),
    },
  };
}

function verdict(faults: number, bent: readonly string[], shapes: number): string {
  if (faults > 0) return 'The sheet and the model computed afresh from the readings differ.';
  const same = 'The sheet, the model computed afresh from the readings, and the simulation agree';
  if (bent.length > 0)
    return `${same}, except for the ${listed(bent)}: there sheet and model are only rough.`;
  return shapes > 0
    ? `${same} in u; the intervals differ in shape.`
    : `${same}: the ends of the intervals within half a unit of the second digit of u.`;
}

const pair = (value: number, expanded: number) => reportText(value, expanded);
function listed(labels: readonly string[]): string {
  const [last = '', ...others] = [...labels].reverse();
  return others.length > 0 ? `${others.reverse().join(', ')} and ${last}` : last;
}

const sentence = (label: string) => label[0]!.toUpperCase() + label.slice(1);
