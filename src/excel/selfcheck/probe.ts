import type { Scratch } from './scratch';

/** A question to the spreadsheet program, in words. */
interface Question {
  readonly id: string;
  readonly title: string;
  readonly expects: string;
  /** What it means for the person if something else comes. */
  readonly means: string;
}

/** One that the program itself can answer, and nobody else. */
export interface Probe extends Question {
  /** The API set it needs; without it the probe is told as not offered. */
  readonly needs?: readonly [set: string, version: string];
  /** Takes a minute or so: left out unless asked for. */
  readonly isLong?: true;
  run(scratch: Scratch): Promise<Found>;
}

export interface Found {
  readonly came: string;
  readonly isAsExpected: boolean;
}

type ProbeState = 'as expected' | 'otherwise' | 'failed' | 'not offered';
export interface ProbeResult {
  readonly probe: Question;
  readonly state: ProbeState;
  readonly came: string;
  /** Milliseconds. */
  readonly took: number;
}

/** Several things that came, each beside what was expected. */
export function compared(
  rows: readonly (readonly [what: string, came: unknown, expected: unknown])[],
): Found {
  const words = rows.map(([what, came, expected]) =>
    isSame(came, expected) ? `${what}: ${said(came)}` : `${what}: ${said(came)}, expected ${said(expected)}`,
  );
  return {
    came: words.join('; '),
    isAsExpected: rows.every(([, came, expected]) => isSame(came, expected)),
  };
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
}

/** The order of a record's fields says nothing. */
function sorted(value: unknown): unknown {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))
    : value;
}

/** A value of a cell, told apart from its neighbours of other types: `""`, 0, `#N/A`. */
export function said(value: unknown): string {
  if (value === undefined) return 'nothing';
  return typeof value === 'string' && !value.startsWith('#') ? `“${value}”` : JSON.stringify(value);
}

/** The program and the page that were asked, in their own words. */
export interface Where {
  readonly platform: string;
  readonly version: string;
  readonly language: string;
  /** The API sets that the program says it has, the highest version of each. */
  readonly sets: string;
  readonly page: string;
}
