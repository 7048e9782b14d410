/** What a template cannot know: asked when it is applied. */
export interface Answers {
  /** Added to the names of the sheets, so that two bids in one workbook are told apart; empty for none. */
  readonly label: string;
  /** Every unit of the lot; empty as long as it has not arrived. */
  readonly serials: readonly string[];
  /** What the lot is called, and the draw of its sample. */
  readonly lot: string;
  readonly seed: string;
  readonly drawnBy: string;
  /** ISO date of today. */
  readonly today: string;
}

export const NO_ANSWERS: Answers = { label: '', serials: [], lot: '', seed: '', drawnBy: '', today: '' };
