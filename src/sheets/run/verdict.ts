import type { RunSetup } from '../runsetup';
import { BUDGET_RESULT, type BudgetId, budgetIds } from './budgetid';
import type { RunResult } from './results';

/** Quantiles of two programs agree to this; everything else to 1e-9. */
const QUANTILE = '0.00000001';

/** Uncertainty of each result that has a budget, and the decision against its rated value. */
export function uncertaintyResults(setup: Pick<RunSetup, 'colour'>): RunResult[] {
  return budgetIds(setup).flatMap((id) => [...spread(id), ...(id === 'Ratio' ? [] : decision(id))]);
}

function spread(id: BudgetId): RunResult[] {
  const { name, label, unit } = BUDGET_RESULT[id];
  const format = id === 'Ratio' ? '0.0000' : '#,##0.0';
  // A budget is complete as soon as its result is there.
  const needs = [{ range: `${name}Plain`, count: 1 }];
  const of = id === 'Ratio' ? 'ratio' : label.split(' ')[0]!;
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
    },
    {
      name: `${id}Dof`,
      label: `Degrees of freedom, ${of}`,
      unit: '',
      format: '0.0',
      needs,
      custom: `LIGHT.EFFECTIVEDOF(${id}Parts,${id}Nu)`,
      twin: `SUMSQ(${id}Parts)^2/SUMPRODUCT(${id}Parts^4/${id}Nu)`,
      meaning: 'Welch–Satterthwaite',
      fn: 'EFFECTIVEDOF',
    },
    {
      name: `${id}K`,
      label: `Coverage factor, ${of}`,
      unit: '',
      format: '0.00',
      needs: [{ range: `${id}Dof`, count: 1, plain: `${id}DofPlain` }],
      custom: `LIGHT.COVERAGEFACTOR(${id}Dof,Level)`,
      twin: `TINV(1-Level,INT(${id}DofPlain*1.000000001))`,
      meaning: 'Student’s t at the level set',
      fn: 'COVERAGEFACTOR',
      tolerance: QUANTILE,
    },
    {
      name: `${id}Expanded`,
      label: `Expanded uncertainty U, ${of}`,
      unit,
      format,
      needs,
      custom: `LIGHT.EXPANDEDU(${id}Parts,${id}Nu,Level)`,
      twin: `${id}KPlain*${id}UPlain`,
      meaning: 'coverage factor × standard u.',
      fn: 'EXPANDEDU',
      tolerance: QUANTILE,
    },
  ];
}

function decision(id: 'White' | 'Colour'): RunResult[] {
  const { name, label } = BUDGET_RESULT[id];
  const of = label.split(' ')[0]!;
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
    },
    {
      name: `${id}Probability`,
      label: `Probability to conform, ${of}`,
      unit: '',
      format: '0.0 %',
      needs: [given, { range: `${id}U`, count: 1, plain: `${id}UPlain` }],
      custom: `LIGHT.CONFORMITY(${name},${id}U,${id}Limit,,${id}Dof)`,
      twin: `IF(${z}>=0,1-TDIST(${z},${nu},1),TDIST(-${z},${nu},1))`,
      meaning: 'part of the doubt above the limit',
      fn: 'CONFORMITY',
      tolerance: QUANTILE,
    },
    {
      name: `${id}Verdict`,
      label: `Decision, ${of}`,
      unit: '',
      format: 'General',
      needs: [given, { range: `${id}Expanded`, count: 1, plain: U }],
      custom: `LIGHT.DECISION(${name},${id}Expanded,DecisionRule,${id}Limit)`,
      twin: `IF(DecisionRule="no guard band",IF(${y}>=${limit},"pass","fail"),IF(${y}>=${limit}+${U},"pass",IF(DecisionRule="guard band U: pass or fail","fail",IF(${y}>=${limit},"conditional pass",IF(${y}>=${limit}-${U},"conditional fail","fail")))))`,
      meaning: 'by the rule fixed in the set-up',
      fn: 'DECISION',
    },
  ];
}
