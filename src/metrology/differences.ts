import { bad, good, invalid, type Outcome, type Problem } from '../photometry/outcome';
import { type Coverage, expand } from './coverage';
import { DofSum } from './dof';

/** Budgets of the same result of several runs, one column a run. */
export interface Budgets {
  /** Signed contributions u × sensitivity, one row a component, in the unit of the result. */
  readonly parts: readonly (readonly number[])[];
  /** Their degrees of freedom. */
  readonly dof: readonly (readonly number[])[];
  /** Runs with equal numbers were read with one meter, or from one image. */
  readonly meters: readonly number[];
  readonly images: readonly number[];
  /**
   * When two runs share a component: three numbers from 0 (each its own) to 1 (one and the same cause), which count
   * where they have one meter, where they have one image, and always.
   */
  readonly shared: readonly (readonly number[])[];
}

const CONDITIONS = 3;

/**
 * Expanded uncertainty of the difference of every two runs; 0 of a run with itself. What is shared takes itself
 * away before it is squared: u² = Σ s·(a − b)² + (1 − s)·(a² + b²) (GUM eq. 16 with r = s). No form with
 * −2·s·a·b: where all is shared, that is a difference of large numbers.
 */
export function differences(budgets: Budgets, coverage: Coverage): Outcome<number[][]> {
  const problems = shapeProblems(budgets);
  if (problems.length > 0) return bad(...problems);
  const runs = budgets.meters.length;
  const table = Array.from({ length: runs }, () => new Array<number>(runs).fill(0));
  for (let i = 0; i < runs; i++) {
    for (let j = i + 1; j < runs; j++) {
      const { u, dof } = spread(budgets, i, j);
      const expanded = expand(u, dof, coverage);
      if (!expanded.ok) return expanded;
      table[i]![j] = expanded.value.expanded;
      table[j]![i] = expanded.value.expanded;
    }
  }
  return good(table);
}

function spread({ parts, dof, meters, images, shared }: Budgets, i: number, j: number) {
  const [oneMeter, oneImage] = [meters[i] === meters[j] ? 1 : 0, images[i] === images[j] ? 1 : 0];
  const total = new DofSum();
  parts.forEach((row, k) => {
    const [a, b] = [row[i]!, row[j]!];
    const [meter, image, always] = shared[k] as [number, number, number];
    const s = 1 - (1 - meter * oneMeter) * (1 - image * oneImage) * (1 - always);
    addPart(total, s, (a - b) ** 2, dof[k]![i]!);
    addPart(total, 1 - s, a * a, dof[k]![i]!);
    addPart(total, 1 - s, b * b, dof[k]![j]!);
  });
  return { u: Math.sqrt(total.variance), dof: total.dof };
}

function addPart(total: DofSum, weight: number, square: number, dof: number): void {
  if (weight * square > 0) total.add(weight * square, dof);
}

function shapeProblems({ parts, dof, meters, images, shared }: Budgets): Problem[] {
  const runs = meters.length;
  const size = (table: readonly (readonly number[])[]) =>
    `${table.length} × ${Math.max(0, ...table.map((row) => row.length))}`;
  const wrong = (words: string) => [invalid('shape', 'budgets', words)];
  if (runs < 2) return wrong(`A difference takes at least two runs; there is ${runs}.`);
  if (images.length !== runs)
    return wrong(`There must be one meter and one image a run; there are ${runs} and ${images.length}.`);
  const wanted = `${parts.length} × ${runs}`;
  if (size(parts) !== wanted)
    return wrong(`The parts must have one column a run, ${wanted}; they are ${size(parts)}.`);
  if (size(dof) !== wanted)
    return wrong(`The degrees of freedom must be ${wanted} as the parts are; they are ${size(dof)}.`);
  if (size(shared) !== `${parts.length} × ${CONDITIONS}`)
    return wrong(
      `What is shared must be ${parts.length} × ${CONDITIONS}: with one meter, with one image, always; it is ${size(shared)}.`,
    );
  const outside = shared.flatMap((row, r) =>
    row.some((s) => s < 0 || s > 1)
      ? [
          invalid(
            'out-of-bounds',
            'shared',
            `What is shared must be from 0 to 1; row ${r + 1} has ${row.join(', ')}.`,
          ),
        ]
      : [],
  );
  const few = dof.flatMap((row, r) =>
    row.some((nu) => !(nu >= 1))
      ? [
          invalid(
            'out-of-bounds',
            'degrees of freedom',
            `Degrees of freedom must be at least 1; row ${r + 1} has ${row.join(', ')}.`,
          ),
        ]
      : [],
  );
  return [...outside, ...few];
}
