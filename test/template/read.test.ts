import { readFileSync } from 'node:fs';
import Ajv from 'ajv/dist/2020';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkTemplate, readTemplate } from '../../src/template/read';
import { fileNameOf, packTemplate, writeTemplate } from '../../src/template/write';
import { FULL, REFUSED, SMALL } from './examples';

const read = (json: unknown) => checkTemplate(JSON.parse(JSON.stringify(json)));
const problems = (found: ReturnType<typeof readTemplate>) => (found.ok ? [] : found.problems);

/** The outside opinion on the file: the published schema, judged by a general-purpose validator. */
const schema = JSON.parse(readFileSync('src/template/light-template.schema.json', 'utf8')) as object;
const isFit = new Ajv({ allErrors: true, strict: true }).compile(schema);

describe('a template as a file', () => {
  it('comes back as it was written, with every default filled in', () => {
    for (const file of [SMALL, FULL]) {
      const found = read(file);
      if (!found.ok) throw new Error(found.problems.join(' '));
      expect(readTemplate(writeTemplate(found.template))).toEqual(found);
      expect(readTemplate(packTemplate(found.template))).toEqual(found);
    }
  });

  it('keeps what a full file says, field by field', () => {
    const found = read(FULL);
    expect(found.ok && found.template).toMatchObject({
      ...FULL,
      sheets: {
        ...FULL.sheets,
        runs: {
          ...FULL.sheets.runs,
          units: [
            { projector: 'Type 1 (invented)', serial: '0042', mode: 'Bright', place: 'Hillside' },
            { projector: 'Type 2 (invented)', serial: '', mode: '', place: '' },
          ],
        },
      },
    });
  });

  it('fills in what a small file leaves out', () => {
    const found = read(SMALL);
    if (!found.ok) throw new Error(found.problems.join(' '));
    const { rooms, reserves, decision, sheets, sample } = found.template;
    expect(rooms[0]).toMatchObject({ gain: 1, task: 'basic decision making' });
    expect(rooms[0]!.ageing).toBeUndefined();
    expect(reserves).toEqual({ ageing: 0.7, mode: 0.8, colourPart: 1 });
    expect(decision).toMatchObject({ rule: 'guard band U: four outcomes', level: 0.9545, leastPart: 0.8 });
    expect(sample).toEqual({ aql: 2.5, level: 'II', severity: 'normal' });
    expect(sheets).toMatchObject({ need: { spare: 5 }, ageing: 'none', overview: true, certificates: false });
  });

  it('may begin with the mark some editors write', () => {
    expect(readTemplate(`\ufeff${JSON.stringify(SMALL)}`).ok).toBe(true);
  });

  it('gets a file name of letters and digits', () => {
    const found = read({ ...SMALL, title: '../Träume: 2027 "CON" .json' });
    expect(found.ok && fileNameOf(found.template)).toBe('traume-2027-con-json.light-template.json');
    const other = read({ ...SMALL, title: '図書館' });
    expect(other.ok && fileNameOf(other.template)).toBe('template.light-template.json');
  });
});

describe('what is no template', () => {
  it.each(REFUSED)('%s is refused in words', (_, change, words) => {
    const text = JSON.stringify(change(FULL)).replace('"width":null', '"width":1e999');
    const found = readTemplate(text);
    expect(found.ok).toBe(false);
    expect(problems(found).join('\n')).toMatch(new RegExp(words.source, 'm'));
  });

  it.each([
    ['no JSON', '{"format": ', /^This file is not valid JSON/],
    ['a number', '5', /must be an object with fields/],
    ['a list', '[]', /must be an object with fields/],
    ['nothing', 'null', /must be an object with fields/],
    ['a formula', '=1+1', /not valid JSON/],
  ])('%s', (_, text, words) => {
    expect(problems(readTemplate(text))[0]).toMatch(words);
  });

  it('one that is too large is not looked at', () => {
    const text = JSON.stringify({ ...FULL, note: 'x'.repeat(300_000) });
    expect(problems(readTemplate(text))[0]).toMatch(/at most 262144 characters; this file has \d+/);
  });

  it('one with too many values, or nested too deep, is not looked at closer', () => {
    const many = JSON.stringify({ ...SMALL, rooms: Array(20_001).fill(1) });
    expect(problems(readTemplate(many))).toEqual(['This is no template: it holds more than 20000 values.']);
    const deep = `${'{"a":'.repeat(5000)}1${'}'.repeat(5000)}`;
    expect(problems(readTemplate(deep))[0]).toMatch(/nested deeper than 8 levels/);
  });

  it.each(['__proto__', 'constructor', 'prototype'])('a field %s is refused and changes nothing', (trick) => {
    for (const text of [
      JSON.stringify(SMALL).replace('{', `{"${trick}": {"isAdmin": true, "title": "x"},`),
      JSON.stringify(SMALL).replace('"rooms":[{', `"rooms":[{"${trick}": {"width": 5},`),
    ]) {
      const found = readTemplate(text);
      expect(problems(found)[0]).toMatch(new RegExp(`${trick}: a field of this name is not allowed`));
    }
    expect(({} as { isAdmin?: boolean }).isAdmin).toBeUndefined();
    expect(Object.prototype).not.toHaveProperty('width');
  });

  it('tells every fault at once, but no more than a person reads', () => {
    const rooms = Array.from({ length: 30 }, () => ({ room: 'A', width: -1, height: 1 }));
    const found = problems(readTemplate(JSON.stringify({ ...SMALL, rooms })));
    expect(found).toHaveLength(21);
    expect(found.at(-1)).toBe('And 10 more.');
  });

  it('repeats what came short and on one line', () => {
    const found = problems(read({ ...SMALL, title: `x\n\u202e${'y'.repeat(500)}` }))[0]!;
    expect(found).not.toMatch(/[\n\u202e]/);
    expect(found.length).toBeLessThan(200);
  });

  it.each([
    [
      { runs: { for: 'rooms', rated: 'chosen offer' } },
      /sheets\.runs\.rated: "chosen offer" needs sheets\.offers/,
    ],
    [{ acceptance: { least: 'need' } }, /sheets\.acceptance\.least: "need" needs sheets\.need/],
    [{ need: {}, comparison: true }, /sheets\.comparison: it needs sheets\.runs/],
    [{ need: {}, certificates: true }, /sheets\.certificates: they need sheets\.runs/],
    [{ need: {}, ageing: 'each unit' }, /sheets\.ageing: "each unit" needs the units/],
    [{ overview: false }, /sheets: no sheet is to be built/],
  ])('fields that contradict each other: %j', (sheets, words) => {
    expect(problems(read({ ...SMALL, sheets })).join('\n')).toMatch(words);
  });

  it('sides and diagonals of no image: 2 m × 1.25 m has a diagonal of √5.5625 m = 2.358 m', () => {
    const image = { shape: 'four sides', unit: 'cm', top: 200, right: 125, bottom: 200, left: 125 };
    const said = (falling: number, rising: number) =>
      problems(read({ ...SMALL, measuring: { image: { ...image, falling, rising } } }));
    expect(said(236, 236)).toEqual([]);
    expect(said(236, 180).join('\n')).toMatch(
      /^measuring\.image: Four sides 2, 1\.25, 2, 1\.25 and a diagonal of 2\.36 make another diagonal of 2\.357, not of 1\.8/,
    );
  });

  it('runs for rooms need rooms', () => {
    expect(problems(read({ ...SMALL, rooms: [] })).join('\n')).toMatch(/"rooms" needs rooms/);
  });
});

describe('the published JSON Schema', () => {
  it('takes what is taken here', () => {
    for (const file of [SMALL, FULL]) {
      expect(isFit(file), JSON.stringify(isFit.errors)).toBe(true);
      const found = read(file);
      // With the defaults filled in too.
      expect(found.ok && isFit(JSON.parse(packTemplate(found.template)))).toBe(true);
    }
  });

  it.each(REFUSED)('refuses %s as we do', (_, change) => {
    // The schema's number is JSON's: there is none that overflows.
    const json = JSON.parse(JSON.stringify(change(FULL)));
    expect(isFit(json)).toBe(false);
  });

  /** Each field of the full example replaced by something else: both readers must come to the same verdict. */
  it('comes to our verdict whatever a field is replaced by', () => {
    const places = pathsOf(FULL);
    const strange = fc.oneof(
      fc.constantFrom<unknown>(null, '', ' ', true, false, [], {}, '=1+1', 'none', 'rooms', 'x'.repeat(600)),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.integer({ min: -5, max: 120 }),
      fc.string({ maxLength: 30, unit: 'binary' }),
    );
    fc.assert(
      fc.property(fc.constantFrom(...places), strange, (path, value) => {
        const json = replaced(FULL, path, value);
        const ours = checkTemplate(json);
        // What fields say together, dates that no calendar has, and texts of blanks are not the schema's matter.
        if (
          !ours.ok &&
          ours.problems.every((problem) =>
            /needs|need sheets|no sheet|^measuring\.image: (Four sides|No image)/.test(problem),
          )
        )
          return;
        if (path.at(-1) === 'calibratedOn') return;
        expect(isFit(json), `${path.join('.')} = ${JSON.stringify(value)}: ${problems(ours).join(' ')}`).toBe(
          ours.ok,
        );
      }),
      { numRuns: 3000, seed: 5 },
    );
  });
});

type Path = readonly (string | number)[];

function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return path.length > 0 ? [path] : [];
  const inside = Object.entries(value).flatMap(([key, one]) =>
    pathsOf(one, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return path.length > 0 ? [path, ...inside] : inside;
}

function replaced(json: unknown, [key, ...rest]: Path, value: unknown): unknown {
  if (key === undefined) return value;
  const copy = (Array.isArray(json) ? [...json] : { ...(json as object) }) as Record<
    string | number,
    unknown
  >;
  copy[key] = replaced(copy[key], rest, value);
  return copy;
}
