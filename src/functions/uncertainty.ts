import { coverageFactor, DEFAULT_LEVEL, expand, usedDof } from '../metrology/coverage';
import { judge } from '../metrology/decision';
import { differences } from '../metrology/differences';
import { DISTRIBUTIONS } from '../metrology/distribution';
import { welchSatterthwaite } from '../metrology/dof';
import { conformanceProbability } from '../metrology/probability';
import { reportText } from '../metrology/report';
import { DECISION_RULES, ruleOf } from '../metrology/rules';
import { budgetTable } from '../metrology/table';
import { LEAST_PART } from '../photometry/bounds';
import { bad, chain, good, invalid, type Outcome } from '../photometry/outcome';
import { unitText } from './lists';
import { choice, column, filled, number, type Param, present, table, words } from './params';
import { define } from './record';

const level = () => number('level of confidence', '', { moreThan: 0, max: 0.999999 }, DEFAULT_LEVEL);
const contributions = () =>
  column('standard uncertainties times sensitivities, in the unit of the result', 'number');
const dofs = () => column('degrees of freedom of each; "∞" where they are infinite', 'number or ∞');

/** ν as a cell can show it: spreadsheets know no infinity. */
const INFINITE = '∞';
const shown = (dof: number) => (Number.isFinite(dof) ? dof : INFINITE);

/** What to do about a 0 of a column, where an empty cell would pass for one. */
const LEAVE_OUT = 'leave out the row of what does not count';
const OWN_NUMBER = 'number them from 1';

/** An empty cell reaches a function as 0, so a limit of 0 is one that is not there; negative ones are fine. */
function limit(side: 'lower' | 'upper'): Param<number | undefined> {
  const inner = number(`${side} limit; left out, empty or 0 if there is none`, 'of the value', {}, 0);
  return {
    ...inner,
    description: `${side} limit; leave out or empty if there is none (for a limit of 0 write 1E-300)`,
    parse: (raw, name) => chain(inner.parse(raw, name), (value) => good(value === 0 ? undefined : value)),
  };
}

const root = (values: readonly number[]) => Math.sqrt(values.reduce((sum, value) => sum + value * value, 0));

function sameLength(named: Readonly<Record<string, { readonly length: number }>>): Outcome<true> {
  const lengths = Object.entries(named).map(([name, { length }]) => `${name} ${length}`);
  if (new Set(Object.values(named).map(({ length }) => length)).size === 1) return good(true);
  return bad(
    invalid(
      'shape',
      'columns',
      `The columns must have as many rows as each other; they have: ${lengths.join(', ')}.`,
    ),
  );
}

const GUM = 'JCGM 100:2008 (GUM)';

export const uncertaintyFunctions = [
  define({
    id: 'BUDGET',
    summary:
      'Uncertainty budget as a table: divisor, standard uncertainty, contribution and share of each component, then the sum.',
    params: {
      component: words('names of the components, one a row'),
      halfWidth: filled(column('half-width or standard uncertainty of each', 'number'), LEAVE_OUT),
      distribution: words(`distribution of each: ${DISTRIBUTIONS.join(', ')}`),
      sensitivity: filled(column('sensitivity of the result to each', 'number'), LEAVE_OUT),
      dof: dofs(),
      level: level(),
    },
    result: { kind: 'table', unit: 'of the result' },
    formula:
      'u = half-width ÷ divisor; contribution = |sensitivity| × u; share = contribution² ÷ u_c²; U = k × u_c',
    source: `${GUM} clauses 4.3, 5.1 and G.4; components are independent`,
    example: '=LIGHT.BUDGET(A40:A42,B40:B42,C40:C42,F40:F42,H40:H42)',
    compute: (a) =>
      chain(
        sameLength({
          component: a.component,
          'half-width': a.halfWidth,
          distribution: a.distribution,
          sensitivity: a.sensitivity,
          dof: a.dof,
        }),
        () =>
          budgetTable(
            a.component.map((label, i) => ({
              label,
              halfWidth: a.halfWidth[i]!,
              distribution: a.distribution[i]!,
              sensitivity: a.sensitivity[i]!,
              dof: a.dof[i]!,
            })),
            a.level,
          ),
      ),
  }),
  define({
    id: 'COMBINEDU',
    summary: 'Combined standard uncertainty of independent contributions.',
    params: { contributions: contributions() },
    result: { kind: 'number', unit: 'of the result' },
    formula: 'u_c = √(Σ contribution²)',
    source: `${GUM} eq. (10)`,
    example: '=LIGHT.COMBINEDU(J40:J50)',
    compute: ({ contributions }) => good(root(contributions)),
  }),
  define({
    id: 'EFFECTIVEDOF',
    summary: 'Effective degrees of freedom of independent contributions (Welch–Satterthwaite).',
    params: { contributions: contributions(), dof: dofs() },
    result: { kind: 'number or text', unit: '' },
    formula: 'ν_eff = u_c⁴ ÷ Σ(contribution⁴ ÷ ν)',
    source: `${GUM} eq. (G.2b)`,
    example: '=LIGHT.EFFECTIVEDOF(J40:J50,H40:H50)',
    compute: ({ contributions, dof }) =>
      chain(sameLength({ contributions, dof }), () =>
        chain(welchSatterthwaite(contributions.map((u, i) => ({ u: Math.abs(u), dof: dof[i]! }))), (nu) =>
          good(shown(nu)),
        ),
      ),
  }),
  define({
    id: 'COVERAGEFACTOR',
    summary:
      'Coverage factor k for a level of confidence; degrees of freedom are cut to the next lower whole number.',
    params: {
      dof: number('effective degrees of freedom; "∞" where infinite', '', { min: 1 }, undefined, INFINITE),
      level: level(),
    },
    result: { kind: 'number', unit: '' },
    formula: 'k = t_p(ν), two-sided',
    source: `${GUM} G.3.4 and G.4.1`,
    example: '=LIGHT.COVERAGEFACTOR(16,0.99)',
    compute: ({ dof, level }) => coverageFactor(dof, { level, rounding: 'truncate' }),
  }),
  define({
    id: 'EXPANDEDU',
    summary: 'Expanded uncertainty U of independent contributions.',
    params: { contributions: contributions(), dof: dofs(), level: level() },
    result: { kind: 'number', unit: 'of the result' },
    formula: 'U = k × u_c',
    source: `${GUM} clause 6 and G.4`,
    example: '=LIGHT.EXPANDEDU(J40:J50,H40:H50)',
    compute: ({ contributions, dof, level }) =>
      chain(sameLength({ contributions, dof }), () =>
        chain(welchSatterthwaite(contributions.map((u, i) => ({ u: Math.abs(u), dof: dof[i]! }))), (nu) =>
          chain(expand(root(contributions), nu, { level, rounding: 'truncate' }), ({ expanded }) =>
            good(expanded),
          ),
        ),
      ),
  }),
  define({
    id: 'DIFFERENCES',
    summary:
      'Expanded uncertainty of the difference of every two runs, as a table; what two runs share is counted once.',
    params: {
      parts: table('signed contributions u × sensitivity, one row a component, one column a run'),
      dof: table('degrees of freedom of each; "∞" where they are infinite', 'number or ∞'),
      meters: filled(column('number of each run’s meter; equal numbers are one meter', 'number'), OWN_NUMBER),
      images: filled(column('number of each run’s image; equal numbers are one image', 'number'), OWN_NUMBER),
      shared: table(
        '1 where a component is one cause for two runs, else 0: three columns, with one meter, with one image, always',
      ),
      level: level(),
    },
    result: { kind: 'table', unit: 'of the result' },
    formula: 'u² = Σ s·(a − b)² + (1 − s)·(a² + b²), s = 1 where shared; U = k × u',
    source: `${GUM} eq. (16) with correlation 1 or 0, and G.4`,
    example: '=LIGHT.DIFFERENCES(E40:G50,E54:G64,E38:G38,E39:G39,B40:D50)',
    compute: ({ level, ...budgets }) => differences(budgets, { level, rounding: 'truncate' }),
  }),
  define({
    id: 'LIMIT',
    summary:
      'Lower limit of a delivered light output: rated value times the least part of it that must be there.',
    params: {
      rated: number('rated light output', 'lm', { moreThan: 0 }),
      part: number('least part of it, e.g. 80 %', '', { moreThan: 0, max: LEAST_PART.max }),
    },
    result: { kind: 'number', unit: 'lm' },
    formula: 'T = rated value × least part',
    source:
      '80 % is a commonly used lower limit (ISO/IEC 21118, from memory); check the edition your contract names',
    example: '=LIGHT.LIMIT(2300,0.8)',
    compute: ({ rated, part }) => good(rated * part),
  }),
  define({
    id: 'CONFORMITY',
    summary: 'Probability that the true value conforms to a lower limit, an upper limit or both.',
    params: {
      value: present(number('measured value', '')),
      u: number('its combined standard uncertainty', 'of the value', { moreThan: 0 }),
      lower: limit('lower'),
      upper: limit('upper'),
      dof: number(
        'effective degrees of freedom; "∞" where infinite',
        '',
        { min: 1 },
        Number.POSITIVE_INFINITY,
        INFINITE,
      ),
    },
    result: { kind: 'number', unit: 'fraction' },
    formula: 'p = F((upper − y) ÷ u) − F((lower − y) ÷ u), F of Student’s t, normal for infinite ν',
    source: 'JCGM 106:2012 clause 7 (from memory)',
    example: '=LIGHT.CONFORMITY(2231,59,1840)',
    compute: ({ value, u, lower, upper, dof }) =>
      chain(limits(lower, upper), (checked) =>
        conformanceProbability({ value, u, dof: usedDof(dof, 'truncate') }, checked),
      ),
  }),
  define({
    id: 'DECISION',
    summary: 'Decision on a measured value against limits, by a rule fixed before the readings.',
    params: {
      value: present(number('measured value', '')),
      expanded: number('its expanded uncertainty U', 'of the value', { moreThan: 0 }),
      rule: choice('decision rule', 'DECISIONRULE', DECISION_RULES, DECISION_RULES[0]),
      lower: limit('lower'),
      upper: limit('upper'),
    },
    result: { kind: 'text', unit: '' },
    formula:
      'lower limit T, guard band w = U: pass y ≥ T + w; conditional pass y ≥ T; conditional fail y ≥ T − w; else fail; on a limit is what misses it by less than 1E-9 of T + w',
    source: 'ILAC-G8:09/2019 clauses 4.2.1 to 4.2.3; which side the exact limits belong to is ours',
    example: '=LIGHT.DECISION(2231,118,"guard band U: four outcomes",1840)',
    compute: ({ value, expanded, rule, lower, upper }) =>
      chain(limits(lower, upper), (checked) =>
        chain(judge({ value, expanded }, checked, ruleOf(rule)), ({ verdict }) => good(verdict)),
      ),
  }),
  define({
    id: 'REPORT',
    summary:
      'A result with its expanded uncertainty as people report it: two significant digits of U, the value to the same place.',
    params: {
      value: present(number('measured value', '')),
      expanded: number('its expanded uncertainty U', 'of the value', { moreThan: 0 }),
      unit: unitText(),
    },
    result: { kind: 'text', unit: '' },
    formula: '(value ± U) unit',
    source: `${GUM} clause 7.2.6`,
    example: '=LIGHT.REPORT(2231.4,118.2,"lm")',
    compute: ({ value, expanded, unit }) => good(reportText(value, expanded, unit)),
  }),
];

function limits(
  lower: number | undefined,
  upper: number | undefined,
): Outcome<{ lower?: number; upper?: number }> {
  if (lower === undefined && upper === undefined) {
    return bad(invalid('missing', 'limits', 'Give a lower limit, an upper limit or both; neither came.'));
  }
  return good({ ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) });
}
