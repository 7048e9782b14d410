/** `red` → `Red`: names begin with a word's stem. */
export function stemOf<const Word extends string>(word: Word): Capitalize<Word> {
  return `${word[0]!.toUpperCase()}${word.slice(1)}` as Capitalize<Word>;
}
