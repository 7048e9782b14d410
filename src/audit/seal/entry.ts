/** One thing that is sealed, as one line of the canonical form. */
export interface Entry {
  readonly group: Group;
  /** Address or name. */
  readonly key: string;
  readonly text: string;
  /** Other texts that say the same, for a result that another program has rounded to the other side. */
  readonly alternatives: readonly string[];
}
/** Cells as typed or built; results of formulas; names; input rules by cell; what is so of the sheet as a whole. */
export type Group = 'cell' | 'result' | 'name' | 'rule' | 'sheet';
export const GROUPS: readonly Group[] = ['cell', 'result', 'name', 'rule', 'sheet'];
