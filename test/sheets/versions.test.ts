import { createHash } from 'node:crypto';
import { it } from 'vitest';
import type { Book, BookSheet } from '../../src/sheets/book';
import { IDENTITY, parseIdentity } from '../../src/sheets/plan';
import { bookOf } from '../../src/sheets/realize';
import { runPlan } from '../../src/sheets/run';
import { EXAMPLES, smallRun } from '../audit/examples';
import { expectGolden } from '../golden';
import { SETUPS } from './setups';

/*
 * Regression: what is built under a version stays what it is. A check builds a sheet anew and holds the one it finds
 * against it; with another layout under the same version it would call a sound sheet of last month altered. When this
 * fails, raise the version of the kind, then write the list anew with UPDATE=1.
 */
const BOOKS: Readonly<Record<string, () => Book>> = {
  'run, smallest': () => bookOf([smallRun('small1', 'Unit 1')]),
  ...Object.fromEntries(
    Object.entries(SETUPS).map(([name, setup]) => [`run, ${name}`, () => bookOf([runPlan(setup, 'run1')])]),
  ),
  ...EXAMPLES,
};

/** What a check holds a sheet against: formulas, words that nobody types, number formats, rules. */
function layoutOf({ cells, validations, names }: BookSheet): unknown {
  return [
    Object.entries(cells)
      .map(([at, { value, formula, style }]) => {
        const words = style?.locked === false || typeof value !== 'string' ? undefined : value;
        return [at, formula ?? words, style?.format, style?.locked];
      })
      .sort(([a], [b]) => (String(a) < String(b) ? -1 : 1)),
    validations,
    names.filter(({ name }) => name !== IDENTITY).map(({ name, refersTo }) => [name, refersTo]),
  ];
}

it('a layout is changed only with its version', () => {
  const lines = Object.entries(BOOKS).map(([name, build]) => {
    const sheet = build().sheets.at(-1)!;
    const hash = createHash('sha256')
      .update(JSON.stringify(layoutOf(sheet)))
      .digest('hex');
    const identity = parseIdentity(sheet.names.find((each) => each.name === IDENTITY)!.refersTo);
    return `${name}: version ${identity?.version}, ${hash.slice(0, 16)}`;
  });
  expectGolden(`${lines.join('\n')}\n`, new URL('./cases/versions.txt', import.meta.url));
});
