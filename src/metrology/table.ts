import { bad, good, invalid, type Outcome } from '../photometry/outcome';
import { expand } from './coverage';
import { DISTRIBUTIONS, type Distribution, divisor } from './distribution';
import { effectiveDof } from './dof';

/** One row of a budget as a person writes it down. */
export interface TableRow {
  readonly label: string;
  readonly halfWidth: number;
  readonly distribution: string;
  readonly sensitivity: number;
  readonly dof: number;
}

/** Any independent components → the whole budget as a table of cells, head row first. Any number of rows. */
export function budgetTable(rows: readonly TableRow[], level: number): Outcome<(string | number)[][]> {
  const problems = rows.flatMap(({ label, halfWidth, distribution, dof }, i) => [
    ...(halfWidth >= 0
      ? []
      : [
          invalid(
            'negative',
            'half-width',
            `The half-width of "${label}" (row ${i + 1}) must not be negative; it is ${halfWidth}.`,
          ),
        ]),
    ...(isDistribution(distribution)
      ? []
      : [
          invalid(
            'choice',
            'distribution',
            `The distribution of "${label}" (row ${i + 1}) must be one of ${DISTRIBUTIONS.join(', ')}; it is "${distribution}".`,
          ),
        ]),
    ...(dof >= 1
      ? []
      : [
          invalid(
            'out-of-bounds',
            'degrees of freedom',
            `The degrees of freedom of "${label}" (row ${i + 1}) must be at least 1; they are ${dof}.`,
          ),
        ]),
  ]);
  if (problems.length > 0) return bad(...problems);
  const lines = rows.map((row) => {
    const by = divisor(row.distribution as Distribution);
    const u = row.halfWidth / by;
    return { ...row, by, u, contribution: Math.abs(row.sensitivity) * u };
  });
  const variance = lines.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
  const u = Math.sqrt(variance);
  const dof = effectiveDof(lines.map(({ contribution, dof: nu }) => ({ u: contribution, dof: nu })));
  const expanded = expand(u, dof, { level, rounding: 'truncate' });
  if (!expanded.ok) return expanded;
  const shownDof = (nu: number) => (Number.isFinite(nu) ? nu : '∞');
  const total = (label: string, value: number | string) => [label, '', '', '', '', '', '', value, ''];
  return good([
    ['component', 'half-width', 'distribution', 'divisor', 'u', 'sensitivity', 'ν', 'contribution', 'share'],
    ...lines.map((l) => [
      l.label,
      l.halfWidth,
      l.distribution,
      l.by,
      l.u,
      l.sensitivity,
      shownDof(l.dof),
      l.contribution,
      variance === 0 ? 0 : l.contribution ** 2 / variance,
    ]),
    total('combined standard uncertainty', u),
    total('effective degrees of freedom', shownDof(dof)),
    total('coverage factor', expanded.value.k),
    total('expanded uncertainty', expanded.value.expanded),
  ]);
}

function isDistribution(text: string): text is Distribution {
  return (DISTRIBUTIONS as readonly string[]).includes(text);
}
