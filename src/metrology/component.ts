import type { Distribution } from './distribution';

/**
 * One independent cause of uncertainty. Whatever two results have in common is one component that both depend
 * on; that is all there is to correlation here.
 */
export interface Component {
  /** Unique within a model, e.g. `gain`, `digits:x10`, `resolution:white:5`. */
  readonly id: string;
  readonly label: string;
  /** Components with the same line are shown as one line of the budget, e.g. nine readings' resolution. */
  readonly line: string;
  /** Best estimate, in `unit`. */
  readonly value: number;
  readonly unit: string;
  readonly distribution: Distribution;
  /** Bound of the value, or expanded uncertainty for `normal`; in `unit`. */
  readonly halfWidth: number;
  readonly divisor: number;
  /** Standard uncertainty, half-width ÷ divisor, in `unit`. */
  readonly u: number;
  /** Degrees of freedom; infinite for a bound taken as known. */
  readonly dof: number;
  /** In words: what shares this cause ("every reading of this meter"). */
  readonly sharedBy: string;
  /** What must be the same thing for two runs to share this cause. */
  readonly scope: Scope;
  /** Components whose u comes from one estimate bear the same word: Welch–Satterthwaite counts them as one. */
  readonly estimate?: string;
}

/** meter: the instrument. image: the picture's size on the wall. spectrum: meter and light source. screen: its gain. */
export type Scope = 'meter' | 'image' | 'spectrum' | 'screen' | 'run' | 'reading';
