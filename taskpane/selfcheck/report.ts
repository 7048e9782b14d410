import type { ProbeResult, Where } from '../../src/excel/selfcheck/probe';
import { count } from '../parse/block';

/** "28 of 30 as expected, 1 otherwise, 1 not offered by this program". */
export function summary(results: readonly ProbeResult[]): string {
  const of = (state: ProbeResult['state']) => results.filter((result) => result.state === state).length;
  const rest = [
    [of('otherwise'), 'otherwise'],
    [of('failed'), 'failed'],
    [of('not offered'), 'not offered by this program'],
  ] as const;
  return [
    `${of('as expected')} of ${count(results.length, 'question')} answered as expected`,
    ...rest.flatMap(([number, words]) => (number === 0 ? [] : [`${number} ${words}`])),
  ].join(', ');
}

/** Everything for a report, as one text: where it ran, then each question with what was expected and what came. */
export function reportText(results: readonly ProbeResult[], where: Where): string {
  return [
    'Light Output Workbook: check of the spreadsheet program',
    `${summary(results)}.`,
    `Program: ${where.platform}, ${where.version}, ${where.language}`,
    `API: ${where.sets}`,
    `Browser: ${where.page}`,
    '',
    ...results.flatMap(({ probe, state, came, took }) => [
      `[${state}] ${probe.title} (${took} ms)`,
      `  expected: ${probe.expects}`,
      `  came: ${came}`,
    ]),
  ].join('\n');
}
