/** Days as spreadsheets count them: 0 is 1899-12-30, right for every day from March 1900 on (ECMA-376-1, 18.17.4.1). */
const DAY_ZERO = Date.UTC(1899, 11, 30);
const DAY_MS = 86_400_000;
/** 9999-12-31, the last day of a spreadsheet's calendar (ECMA-376-1, 18.17.4.1). */
const LAST_DAY = 2_958_465;

/** An instant as ISO time, UTC, to the second: `2026-11-25T09:30:00Z`. */
export function utc(time: Date): string {
  return time.toISOString().replace(/\.\d+Z$/, 'Z');
}

/** ISO date → a spreadsheet's day number. */
export function dayNumber(iso: string): number {
  return Math.round((Date.parse(`${iso}T00:00:00Z`) - DAY_ZERO) / DAY_MS);
}

/** A spreadsheet's day number, with or without a time of day → ISO date; anything that is none → empty. */
export function isoDay(day: unknown): string {
  if (typeof day !== 'number' || !(day >= 1 && day < LAST_DAY + 1)) return '';
  return new Date(DAY_ZERO + Math.floor(day) * DAY_MS).toISOString().slice(0, 10);
}
