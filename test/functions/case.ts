/** One call with the value it must give. `expect` holds the digits as printed, half a unit of the last is allowed. */
export interface Case {
  readonly name: string;
  readonly args: readonly unknown[];
  /** A number as printed, a text, or a picker into a table with the printed number found there. */
  readonly expect:
    | string
    | { readonly text: string }
    | { readonly cell: [number, number]; readonly printed: string }
    | { readonly cell: [number, number]; readonly text: string };
  readonly source: string;
}
