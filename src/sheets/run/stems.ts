export const PRIMARY_STEMS = ['Red', 'Green', 'Blue'] as const;
export type BudgetStem = 'White' | 'Black' | (typeof PRIMARY_STEMS)[number];
/** For each field, the cells of each of its nine points: first reading and repeats. */
export type FieldCells = Partial<Record<BudgetStem, readonly (readonly string[])[]>>;
/** Cells of the checkerboard's tiles, those that are white with a white tile at the top left, and the others. */
export interface BoardCells {
  readonly even: readonly string[];
  readonly odd: readonly string[];
}
