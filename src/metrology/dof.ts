import type { Outcome } from '../photometry/outcome';
import { notAtLeastZero, notDegreesOfFreedom, unless } from './check';

/** One independent part of a combined uncertainty, in the unit of the result. */
export interface Part {
  readonly u: number;
  readonly dof: number;
  /** Parts whose u comes from one and the same estimate bear the same word and count as one. */
  readonly estimate?: string;
}

/**
 * Effective degrees of freedom, ν_eff = u_c⁴ ÷ Σ(uᵢ⁴ ÷ νᵢ) (GUM eq. G.2b, Welch–Satterthwaite), part by part.
 * Parts with infinite ν add nothing to the sum. Parts of one estimate (one pooled s used for nine readings,
 * say) are first added in squares: nine uses of one estimate are no better known than the estimate.
 */
export class DofSum {
  /** u_c². */
  variance = 0;
  private sum = 0;
  private readonly shared = new Map<string, { square: number; readonly dof: number }>();

  /** @param square uᵢ², in the unit of the result squared */
  add(square: number, dof: number, estimate?: string): void {
    this.variance += square;
    if (dof === Number.POSITIVE_INFINITY || square === 0) return;
    if (estimate === undefined) {
      this.sum += (square * square) / dof;
      return;
    }
    const known = this.shared.get(estimate);
    if (known) known.square += square;
    else this.shared.set(estimate, { square, dof });
  }

  /** ν_eff; infinite where nothing finite went in. */
  get dof(): number {
    let sum = this.sum;
    for (const { square, dof } of this.shared.values()) sum += (square * square) / dof;
    return sum === 0 ? Number.POSITIVE_INFINITY : (this.variance * this.variance) / sum;
  }
}

/** ν_eff of independent parts. */
export function effectiveDof(parts: readonly Part[]): number {
  const total = new DofSum();
  for (const { u, dof, estimate } of parts) total.add(u * u, dof, estimate);
  return total.dof;
}

/** Welch–Satterthwaite with its inputs checked. */
export function welchSatterthwaite(parts: readonly Part[]): Outcome<number> {
  const problems = parts.flatMap(({ u, dof }, i) => [
    ...notAtLeastZero(u, `uncertainty of part ${i + 1}`),
    ...(u === 0 ? [] : notDegreesOfFreedom(dof, `degrees of freedom of part ${i + 1}`)),
  ]);
  return unless(problems, () => effectiveDof(parts));
}
