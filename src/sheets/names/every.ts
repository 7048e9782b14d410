/** Names of a stem and an ending, for every stem and every ending: `every(['Red'], ['Net'])` → `['RedNet']`. */
export function every<const Stem extends string, const End extends string>(
  stems: readonly Stem[],
  ends: readonly End[],
): readonly `${Stem}${End}`[] {
  return stems.flatMap((stem) => ends.map((end) => `${stem}${end}` as const));
}
