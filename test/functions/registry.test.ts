import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { functionsMetadata } from '../../src/functions/metadata';

import { FUNCTIONS, NAMESPACE } from '../../src/functions/table';
import { associateAll } from '../../src/functions/wrap';
import { expectGolden } from '../golden';
import { CellError, call } from './call';
import { exampleArguments } from './examplearguments';
import { functionPage, functionTableMarkdown } from './page';

const IDS = FUNCTIONS.map(({ id }) => id);
/** Excel refuses names that could be a cell: A1 to XFD1048576, and R1C1 references. */
const CELL_LIKE = /^[A-Z]{1,3}[0-9]+$|^R[0-9]*C[0-9]*$|^[RC][0-9]*$/;

describe('the table of functions', () => {
  it('has unique ids, and Excel does not tell upper from lower case', () => {
    expect(new Set(IDS.map((id) => id.toUpperCase())).size).toBe(IDS.length);
  });

  it.each(IDS)('%s is a name Excel takes', (id) => {
    // learn.microsoft.com, "Naming and localization for custom functions": 3 characters, letter first.
    expect(id).toMatch(/^[A-Z][A-Z0-9.]*$/);
    expect(id.length).toBeGreaterThanOrEqual(3);
    expect(`${NAMESPACE}.${id}`.length).toBeLessThanOrEqual(64);
    expect(id).not.toMatch(CELL_LIKE);
    expect(id).not.toContain(NAMESPACE);
  });

  it.each(FUNCTIONS)('$id says what it gives, how, from where, with an example', (record) => {
    for (const text of [record.summary, record.formula, record.source, record.example])
      expect(text.trim()).not.toBe('');
    expect(record.summary).toMatch(/^[A-Z].*\.$/);
    for (const { name, description } of record.params) {
      expect(name).toMatch(/^[a-z][A-Za-z]*$/);
      expect(description.trim().length).toBeGreaterThan(2);
    }
  });

  it.each(FUNCTIONS)('$id: its example calls it with arguments it has, and gives a result', (record) => {
    const match = /^=LIGHT\.([A-Z0-9.]+)\((.*)\)$/.exec(record.example);
    expect(match?.[1]).toBe(record.id);
    const list = match![2]!;
    const args = exampleArguments(record.id, list);
    expect(args.length).toBeLessThanOrEqual(record.params.length);
    const result = call(record.id, ...args);
    expect(result instanceof CellError ? result.message : '').toBe('');
  });

  it('every function is associated under its id', () => {
    const associated: string[] = [];
    associateAll(
      (id) => associated.push(id),
      () => CellError,
    );
    expect(associated).toEqual(IDS);
  });

  it('covers every quantity of a run', () => {
    for (const id of [
      'IMAGESIZE',
      'IMAGEAREA',
      'FOURSIDEDAREA',
      'POINTS',
      'ILLUMINANCE',
      'FINDINGS',
      'MEANILLUMINANCE',
      'OUTPUT',
      'COLOUROUTPUT',
      'TILED',
      'RATIO',
      'BALANCE',
      'STANDARDSHARE',
      'UNIFORMITY',
      'DEVIATION',
      'CORNERS',
      'CONTRAST',
      'CHECKERBOARD',
      'LUMINANCE',
      'DRIFT',
    ])
      expect(IDS).toContain(id);
  });
});

/** Rules of learn.microsoft.com, "Manually create JSON metadata for custom functions in Excel". */
describe('functions.json', () => {
  const json = functionsMetadata();
  const enums = new Map(json.enums.map((entry) => [entry.id, entry]));

  it('is the same each time, is JSON, and lets error cells through', () => {
    expect(functionsMetadata()).toEqual(json);
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
    expect(json.allowErrorForDataTypeAny).toBe(true);
    expect(json.functions.map(({ id }) => id)).toEqual(IDS);
  });

  it.each(json.functions)('$id keeps the rules', ({ id, name, description, parameters, result }) => {
    expect(name).toBe(id);
    expect(description).not.toBe('');
    expect(['number', 'string', 'boolean', 'any']).toContain(result.type);
    expect(['scalar', 'matrix']).toContain(result.dimensionality);
    const optional = parameters.map((parameter) => parameter.optional === true);
    expect(optional, 'optional arguments come last').toEqual([...optional].sort());
    expect(new Set(parameters.map((parameter) => parameter.name)).size).toBe(parameters.length);
    for (const { type, dimensionality, customEnumId } of parameters) {
      expect(['number', 'string', 'boolean', 'any']).toContain(type);
      expect(['scalar', 'matrix']).toContain(dimensionality);
      if (customEnumId === undefined) continue;
      expect(enums.get(customEnumId)?.type).toBe(type);
      expect(dimensionality).toBe('scalar');
    }
  });

  it('offers enums that are used, with distinct entries, the same wherever an id is used', () => {
    const used = new Map<string, string>();
    for (const { params } of FUNCTIONS)
      for (const { choices } of params) {
        if (!choices) continue;
        const list = choices.values.join('|');
        expect(used.get(choices.id) ?? list, choices.id).toBe(list);
        used.set(choices.id, list);
      }
    expect([...enums.keys()].sort()).toEqual([...used.keys()].sort());
    expect(enums.size).toBe(json.enums.length);
    for (const { id, values } of json.enums) {
      expect(id).toMatch(/^[A-Z]+$/);
      expect(values.length).toBeGreaterThan(1);
      expect(new Set(values.map(({ name }) => name)).size).toBe(values.length);
    }
  });

  it('carries the results a cell can take: a table spills, a contrast may be a text', () => {
    const byId = Object.fromEntries(json.functions.map(({ id, result }) => [id, result]));
    expect(byId.OUTPUT).toEqual({ type: 'number', dimensionality: 'scalar' });
    expect(byId.CONTRAST).toEqual({ type: 'any', dimensionality: 'scalar' });
    expect(byId.FINDINGS).toEqual({ type: 'string', dimensionality: 'scalar' });
    expect(byId.POINTS).toEqual({ type: 'any', dimensionality: 'matrix' });
  });
});

describe('the page of functions', () => {
  it('stands beside them as it is generated', () => {
    expectGolden(functionPage(), new URL('../../src/functions/README.md', import.meta.url));
  });

  it('has one row a function, with nothing that breaks a Markdown table', () => {
    const rows = functionTableMarkdown().split('\n');
    expect(rows).toHaveLength(FUNCTIONS.length + 2);
    for (const row of rows) expect(row.replace(/\\\|/g, '').split('|')).toHaveLength(7);
    for (const id of IDS) expect(rows.filter((row) => row.includes(`\`LIGHT.${id}(`))).toHaveLength(1);
  });
});

describe('the README', () => {
  const root = new URL('../../', import.meta.url);
  const readme = readFileSync(new URL('README.md', root), 'utf8');

  it('is read in a few minutes: at most 9 kB', () => {
    expect(Buffer.byteLength(readme)).toBeLessThanOrEqual(9_000);
  });

  it.each([...readme.matchAll(/\]\((?!https?:)([^)#]+)/g)].map((found) => found[1]!))(
    'what it leads to is there: %s',
    (path) => {
      expect(existsSync(new URL(path, root))).toBe(true);
    },
  );
});
