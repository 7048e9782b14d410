import { decidedBy } from '../phrases/decision';
import {
  BUDGET_RESULT,
  type BudgetChoices,
  type BudgetId,
  budgetIds,
  canBeBound,
  NO_U_OF_BOUND,
} from './budgetid';
import type { RunResult } from './results';

/** Above this many degrees of freedom the plain formulas use series in 1/ν: spreadsheets' own t functions lose digits there. */
const SERIES_FROM = 1000;

/** Two-sided Student factor for `Level`; the series is Abramowitz and Stegun 26.7.5. */
export function tFactor(nu: string): string {
  const z = 'NORMSINV((1+Level)/2)';
  const series = `${z}+(${z}^3+${z})/4/${nu}+(5*${z}^5+16*${z}^3+3*${z})/96/${nu}^2+(3*${z}^7+19*${z}^5+17*${z}^3-15*${z})/384/${nu}^3`;
  return `IF(${nu}>${SERIES_FROM},${series},TINV(1-Level,${nu}))`;
}

/** Distribution function of Student's t; the series is R. A. Fisher's of 1925 (from memory, held against a library). */
function tProbability(z: string, nu: string): string {
  const t = `(${z})`;
  const terms = [
    `(${t}^3+${t})/4/${nu}`,
    `(3*${t}^7-7*${t}^5-5*${t}^3-3*${t})/96/${nu}^2`,
    `(${t}^11-11*${t}^9+14*${t}^7+6*${t}^5-3*${t}^3-15*${t})/384/${nu}^3`,
  ];
  // 0-t^2 and not -t^2: a spreadsheet's minus sign binds before its power.
  const series = `NORMSDIST(${t})-EXP(0-${t}^2/2)/SQRT(2*PI())*(${terms.join('+')})`;
  return `IF(${nu}>${SERIES_FROM},${series},IF(${t}>=0,1-TDIST(ABS(${t}),${nu},1),TDIST(ABS(${t}),${nu},1)))`;
}

/** Uncertainty of each result that has a budget, and the decision against its rated value. */
export function uncertaintyResults(setup: BudgetChoices): RunResult[] {
  return budgetIds(setup).flatMap((id) => [
    ...spread(id),
    ...(id === 'White' || id === 'Colour' ? decision(id) : []),
  ]);
}

function spread(id: BudgetId): RunResult[] {
  const { name, short: of, unit, format } = BUDGET_RESULT[id];
  // A budget is complete as soon as its result is there; a bound has none.
  const says = canBeBound(id)
    ? `IF(LEFT(${name}Plain,8)="at least","${NO_U_OF_BOUND}","waiting")`
    : '"waiting"';
  const need = (range: string) => ({ range: `${range}Plain`, count: 1, says });
  const needs = [need(name)];
  return [
    {
      name: `${id}U`,
      label: `Standard uncertainty, ${of}`,
      unit,
      format,
      needs,
      custom: `LIGHT.COMBINEDU(${id}Parts)`,
      twin: `SQRT(SUMSQ(${id}Parts))`,
      meaning: '√ of the sum of squares',
      fn: 'COMBINEDU',
      isStep: true,
    },
    {
      name: `${id}Dof`,
      label: `Degrees of freedom, ${of}`,
      unit: '',
      format: '[>=1000000]"over a million";0.0',
      needs,
      custom: `LIGHT.EFFECTIVEDOF(${id}Parts,${id}Nu)`,
      twin: `SUMSQ(${id}Parts)^2/SUMPRODUCT(${id}Parts^4/${id}Nu)`,
      meaning: 'Welch–Satterthwaite',
      fn: 'EFFECTIVEDOF',
      isStep: true,
    },
    {
      name: `${id}K`,
      label: `Coverage factor, ${of}`,
      unit: '',
      format: '0.00',
      needs: [need(`${id}Dof`)],
      custom: `LIGHT.COVERAGEFACTOR(${id}Dof,Level)`,
      twin: tFactor(`INT(${id}DofPlain*1.000000001)`),
      meaning: 'Student’s t at the level set',
      fn: 'COVERAGEFACTOR',
      isStep: true,
    },
    {
      name: `${id}Expanded`,
      label: `Expanded uncertainty, ${of}`,
      unit,
      format,
      needs,
      custom: `LIGHT.EXPANDEDU(${id}Parts,${id}Nu,Level)`,
      twin: `${id}KPlain*${id}UPlain`,
      meaning: 'coverage factor × standard u.',
      fn: 'EXPANDEDU',
    },
  ];
}

function decision(id: 'White' | 'Colour'): RunResult[] {
  const { name, short: of } = BUDGET_RESULT[id];
  const rated = `Rated${id}`;
  const limit = `${rated}*MinimumFraction`;
  const given = { range: rated, count: 1, otherwise: 'no rated value' };
  const z = `(${name}Plain-${limit})/${id}UPlain`;
  const nu = `INT(${id}DofPlain*1.000000001)`;
  const [y, U] = [`${name}Plain`, `${id}ExpandedPlain`];
  return [
    {
      name: `${id}Limit`,
      label: `Limit, ${of}`,
      unit: 'lm',
      format: '#,##0.0',
      needs: [given],
      custom: `LIGHT.LIMIT(${rated},MinimumFraction)`,
      twin: limit,
      meaning: 'rated value × least part',
      fn: 'LIMIT',
      isStep: true,
    },
    {
      name: `${id}Probability`,
      label: `Probability to conform, ${of}`,
      unit: '',
      format: '0.0 %',
      needs: [given, { range: `${id}UPlain`, count: 1 }],
      custom: `LIGHT.CONFORMITY(${name},${id}U,${id}Limit,,${id}Dof)`,
      twin: tProbability(z, nu),
      meaning: 'part of the doubt above the limit',
      fn: 'CONFORMITY',
    },
    {
      name: `${id}Verdict`,
      label: `Decision, ${of}`,
      unit: '',
      format: 'General',
      needs: [given, { range: U, count: 1 }],
      custom: `LIGHT.DECISION(${name},${id}Expanded,DecisionRule,${id}Limit)`,
      twin: decidedBy('DecisionRule', y, limit, U),
      meaning: 'by the rule fixed in the set-up',
      fn: 'DECISION',
    },
  ];
}
