import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { all, manifestText, parseManifest } from './manifest';

/** The API level that the code may use without asking. */
const WRITTEN_AGAINST = 9;

/** Members of later sets that the code may use where it asks for the set: member → ExcelApi 1.x. */
const GUARDED: Readonly<Record<string, number>> = {
  decimalSeparator: 11,
  getDirectPrecedents: 12,
  addresses: 12,
  getSpillingToRangeOrNullObject: 12,
  insertWorksheetsFromBase64: 13,
  onNameChanged: 17,
  onMoved: 17,
  notes: 18,
};

const sources = ['src/excel', 'taskpane'].flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .map((file) => ({ file: join(folder, file), text: readFileSync(join(folder, file), 'utf8') })),
);

/**
 * For each member name of the Excel API the earliest set that has it, read from the remarks of Microsoft's own
 * type definitions ("[Api set: ExcelApi 1.7]", package @types/office-js). Names shared by several classes count
 * as the earliest, so that only members that are surely too new are found.
 */
function earliestSets(): Map<string, number> {
  const text = readFileSync('node_modules/@types/office-js/index.d.ts', 'utf8');
  const excel = text.slice(
    text.indexOf('declare namespace Excel {'),
    text.indexOf('declare namespace Word {'),
  );
  const sets = new Map<string, number>();
  const pattern =
    /\[Api set: ExcelApi(?:Desktop|Online)? 1\.(\d+)[^\]]*\](?:(?!\*\/)[\s\S])*\*\/\s*(?:readonly\s+)?(\w+)\s*[(?:<]/g;
  for (const [, set, member] of excel.matchAll(pattern)) {
    sets.set(member!, Math.min(Number(set), sets.get(member!) ?? Number.POSITIVE_INFINITY));
  }
  return sets;
}

test('the type definitions are read as the documentation has them', () => {
  const sets = earliestSets();
  // Excel JavaScript API requirement sets, Office Add-ins documentation.
  expect(sets.get('suspendScreenUpdatingUntilNextSync')).toBe(9);
  expect(sets.get('decimalSeparator')).toBe(11);
  expect(sets.get('getDirectPrecedents')).toBe(12);
  expect(sets.get('notes')).toBe(18);
  expect(sets.size).toBeGreaterThan(1000);
});

test('no member above ExcelApi 1.9 is used without a check', () => {
  const sets = earliestSets();
  const unguarded = sources.flatMap(({ file, text }) => {
    const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
    if (!/\b(Excel|Office)\./.test(code)) return [];
    return [...code.matchAll(/\.(\w+)\b/g)]
      .map(([, member]) => ({ member: member!, set: sets.get(member!) ?? 0 }))
      .filter(({ member, set }) => set > WRITTEN_AGAINST && GUARDED[member] !== set)
      .map(({ member, set }) => `${file}: ${member} is of ExcelApi 1.${set}`);
  });
  expect(unguarded).toEqual([]);
});

test.each(Object.entries(GUARDED))('the code asks for the set of "%s" before it uses it', (member, set) => {
  const excel = sources.filter(({ file }) => file.startsWith('src/excel'));
  expect(excel.some(({ text }) => new RegExp(`\\.${member}\\b`).test(text))).toBe(true);
  // The questions of the self-check name the set they need.
  const ways = [`isSetSupported('ExcelApi', '1.${set}')`, `needs: ['ExcelApi', '1.${set}']`];
  expect(excel.some(({ text }) => ways.some((way) => text.includes(way)))).toBe(true);
});

test('the manifest asks for the shared runtime and for error messages of functions, and for nothing else', () => {
  const sets = all(all(parseManifest(manifestText), 'Requirements')[0]!, 'Set');
  // CustomFunctions.Error came with CustomFunctionsRuntime 1.2 (custom functions requirement sets, the same documentation).
  expect(sets.map((set) => [set.getAttribute('Name'), set.getAttribute('MinVersion')])).toEqual([
    ['SharedRuntime', '1.1'],
    ['CustomFunctionsRuntime', '1.2'],
  ]);
});

test('only src/excel and the pages’ entries name Excel or Office', () => {
  const entries = /^(src\/excel\/|taskpane\/(main|functions|capture\/main)\.tsx?$)/;
  const others = sources.filter(
    ({ file, text }) => !entries.test(file) && /\b(Excel|Office)\.[a-zA-Z]/.test(text),
  );
  expect(others.map(({ file }) => file)).toEqual([]);
});
