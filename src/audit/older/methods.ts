import type { CellName } from '../../sheets/names/all';
import type { SheetKind } from '../../sheets/plan';

/** A change of what is computed: sheets of earlier layouts show another number from the same readings. */
export interface MethodChange {
  readonly kind: SheetKind;
  /** The first layout that computes it anew. */
  readonly layout: number;
  /** Version of the program since which it is so. */
  readonly since: string;
  /** The figures that the change is about; what rests on them follows. */
  readonly names: readonly CellName[];
  /** What is different, as a sentence of its own: `The black level’s doubt is modelled since 0.2.` */
  readonly words: string;
}

/**
 * Every change of a method since the first program, oldest first. The same changes stand with their worked examples
 * in src/CHANGES.md.
 */
export const METHOD_CHANGES: readonly MethodChange[] = [
  {
    kind: 'ageing',
    layout: 3,
    since: '0.2',
    names: ['HoursToFrom', 'HoursToUntil'],
    words: 'Hours to a part of the first measurement hold the doubt of that measurement since 0.2.',
  },
  {
    kind: 'certificate',
    layout: 3,
    since: '0.2',
    names: ['CertifiedCount'],
    words:
      'Since 0.2 a certificate is complete only with meter, person and date, where function and plain formula agree, and while nothing has changed since it was compared with its seal.',
  },
];
