import { explain, type Outcome } from '../../src/photometry/outcome';
import type { DecimalMark } from '../parse/number';
import type { Expectation } from '../parse/quantity';
import type { ReadNumber } from '../parse/readnumber';

/** What stands in the fields of a form, as it was typed or chosen. */
export type Texts<K extends string> = Readonly<Record<K, string>>;

/** Values that can be chosen, each with the words that are shown. */
export type Choices = readonly (readonly [value: string, words: string])[];

/** What became of a field. Nothing in it at all where the field is empty and may be, or does not apply. */
export type Read = ReadNumber;
export type Reads<K extends string> = Readonly<Record<K, Read>>;

export interface Common<K extends string> {
  readonly label: string;
  readonly hint?: string | ((texts: Texts<K>) => string | undefined) | undefined;
  /** What stands in the field at first. */
  readonly start?: string;
  /** What is said while the field is empty and must not be; `true` says it by the label. */
  readonly needed?: string | true;
  /** False where the other answers make the field meaningless: then it is neither shown nor read. */
  readonly applies?: (texts: Texts<K>) => boolean;
  /** What its kind does not know: a rule of this field, empty or not, or something worth saying of it. */
  readonly check?: (text: string, texts: Texts<K>) => Read | undefined;
  /** The field that holds the unit of this length: typed in another unit, the form can switch to that. */
  readonly unitIn?: K;
}

/** A field of a form, as the form's table lists it. */
export type FieldSpec<K extends string> = Common<K> &
  (
    | { readonly kind: 'text' /** Most characters. */; readonly max?: number }
    | {
        readonly kind: 'lines';
        readonly rows: number;
        /** Most characters. */
        readonly max?: number;
        /** Words to be read, and not a list. */
        readonly isProse?: true;
      }
    | { readonly kind: 'tick' }
    | { readonly kind: 'date' }
    | {
        readonly kind: 'number';
        readonly expect: Expectation | ((texts: Texts<K>) => Expectation);
        /** How it is read where the pane's own parser is not enough. */
        readonly read?: (text: string, mark?: DecimalMark) => Read;
      }
    | { readonly kind: 'choice'; readonly choices: Choices | ((texts: Texts<K>) => Choices) }
  );

/** What a ticked field holds; one that is not is empty. */
export const TICKED = 'yes';
export const isTicked = (text: string): boolean => text === TICKED;

/** The fields of a form in their order. */
export type FieldTable<K extends string> = Readonly<Record<K, FieldSpec<K>>>;

/** A table whose ids are its own keys. */
export function fields<K extends string>(table: FieldTable<K>): FieldTable<K> {
  return table;
}

/** What can be chosen now; undefined where nothing is to choose. */
export function choicesOf<K extends string>(spec: FieldSpec<K>, texts: Texts<K>): Choices | undefined {
  if (spec.kind !== 'choice') return undefined;
  return typeof spec.choices === 'function' ? spec.choices(texts) : spec.choices;
}

/** What a pure function objects to a field, as the form says it. */
export function problemOf(outcome: Outcome<unknown>): Read | undefined {
  return outcome.ok ? undefined : { problem: objectionOf(outcome) };
}

/** What a pure function objects to, in words; empty where it does not. */
export function objectionOf(outcome: Outcome<unknown> | undefined): string {
  return !outcome || outcome.ok ? '' : explain(outcome.problems);
}
