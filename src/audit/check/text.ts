import { byCause, cellsOfCause } from './causes';
import type { CheckReport } from './check';
import { type Finding, type FindingKind, REMEDIES, SEVERITIES, type Severity } from './finding';

/** How many causes of each severity. */
function countFindings(findings: readonly Finding[]): Record<Severity, number> {
  const count: Record<Severity, number> = { error: 0, warning: 0, note: 0 };
  for (const { finding } of byCause(findings)) count[finding.severity]++;
  return count;
}

/** `2 errors, 1 note`; `nothing found`. What has one cause counts once. */
export function summary(findings: readonly Finding[]): string {
  const count = countFindings(findings);
  const parts = SEVERITIES.filter((severity) => count[severity] > 0).map(
    (severity) => `${count[severity]} ${severity}${count[severity] === 1 ? '' : 's'}`,
  );
  return parts.join(', ') || 'nothing found';
}

/** The answer in one line: `Yes: everything is as built …`, `No: 2 errors, 1 note.` */
export function answerOf({ findings, isCancelled, sheets }: CheckReport): string {
  const said = summary(findings);
  if (isCancelled) return `No answer: the check was cancelled before the end (${said} so far).`;
  // A workbook that remembers seals of sheets that are gone has an answer, though nothing is left to check.
  if (sheets.length === 0 && findings.length === 0) return 'No answer: there is no sheet of ours to check.';
  if (findings.some(({ severity }) => severity !== 'note')) return `No: ${said}.`;
  const notes = findings.length > 0 ? ` (${said} worth knowing)` : '';
  if (findings.some(({ kind }) => ELSE.has(kind)))
    return `Yes: every result follows from what was typed, though not everything is as built${notes}.`;
  return `Yes: everything is as built, and every result follows from what was typed${notes}.`;
}

/** What a note of these kinds tells of was not built so: it says nothing wrong, and is there or gone. */
const ELSE: ReadonlySet<FindingKind> = new Set(['seen', 'added', 'name', 'validation']);

/** A report as plain text, sheet by sheet. */
export function reportText(report: CheckReport): string {
  const { sheets, records, others, findings, isCancelled } = report;
  const lines: string[] = [answerOf(report)];
  const groups = [...sheets, ...(findings.some(({ sheet }) => sheet === '') ? [''] : [])];
  for (const sheet of groups) {
    const own = findings.filter((finding) => finding.sheet === sheet);
    lines.push(`${sheet === '' ? 'Workbook' : sheet}: ${summary(own)}`);
    for (const cause of byCause(own)) {
      const { severity, at, message, expected, found, remedy } = cause.finding;
      lines.push(`  ${severity}${at ? ` ${at}` : ''}: ${message}`);
      lines.push(`    expected: ${expected}`);
      // A remark of the sheet is the message itself.
      if (!message.endsWith(found)) lines.push(`    found:    ${found}`);
      if (cause.others.length > 0)
        lines.push(`    the same: ${cellsOfCause(cause, Number.POSITIVE_INFINITY)}`);
      if (remedy) lines.push(`    remedy:   ${REMEDIES[remedy]}`);
    }
  }
  if (sheets.length === 0) lines.push('No sheet of ours in this workbook.');
  if (records.length > 0) lines.push(`Not checked, reports and log: ${records.join(', ')}`);
  if (others.length > 0) lines.push(`Not checked, not ours: ${others.join(', ')}`);
  if (isCancelled) lines.push('The check was cancelled before the end.');
  return `${lines.join('\n')}\n`;
}

/** A report as rows for a sheet, with a heading row. All texts: a finding that begins with "=" stays a text. */
export function reportRows({ findings }: CheckReport): string[][] {
  return [
    ['Sheet', 'Cell', 'Severity', 'Finding', 'Expected', 'Found', 'What can be done'],
    ...findings.map(({ sheet, at = '', severity, message, expected, found, remedy }) => [
      sheet,
      at,
      severity,
      message,
      expected,
      found,
      remedy ? REMEDIES[remedy] : '',
    ]),
  ];
}
