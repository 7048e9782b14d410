import type { Plan } from './plan';
import { type Moment, reportPlan } from './report';

const FINDINGS_VERSION = 1;

/** What a check has found, ready to be written down. */
export interface FindingsSetup {
  readonly moment: Moment;
  /** Sheets that were checked. */
  readonly sheets: readonly string[];
  /** Reports and the log, in which there is nothing to check. */
  readonly records: readonly string[];
  /** Sheets that were not checked, being none of ours. */
  readonly others: readonly string[];
  /** `2 errors, 1 note`. */
  readonly outcome: string;
  readonly isCancelled: boolean;
  readonly findings: readonly FoundLine[];
}
interface FoundLine {
  readonly sheet: string;
  readonly at: string;
  readonly severity: string;
  readonly message: string;
  readonly expected: string;
  readonly found: string;
  readonly remedy: string;
}

const COLUMNS = [
  { label: 'Sheet', width: 20 },
  { label: 'Cell', width: 10 },
  { label: 'How serious', width: 13 },
  { label: 'Finding', width: 44 },
  { label: 'Expected', width: 36 },
  { label: 'Found', width: 36 },
  { label: 'What can be done', width: 30 },
] as const;

/** The findings of a check, as a sheet to print, to hand over and to keep. */
export function findingsPlan(setup: FindingsSetup, id: string): Plan {
  const { sheets, records, others, outcome, isCancelled, moment, findings } = setup;
  return reportPlan(
    {
      kind: 'findings',
      version: FINDINGS_VERSION,
      title: sheets.length === 1 ? `Findings ${sheets[0]}` : 'Findings',
      heading: 'Findings of a check',
      columns: COLUMNS,
      moment,
      things: 'findings',
      facts: [
        ['Sheets checked', sheets.join(', ') || 'none'],
        ['Not checked', notChecked(records, others)],
        ['Outcome', isCancelled ? `${outcome}; the check was cancelled before the end` : outcome],
      ],
      rows: findings.map(({ sheet, at, severity, message, expected, found, remedy }) => [
        sheet || '(the workbook)',
        at,
        severity,
        message,
        expected,
        found,
        remedy,
      ]),
    },
    id,
  );
}

function notChecked(records: readonly string[], others: readonly string[]): string {
  const parts = [
    ...(records.length > 0 ? [`${records.join(', ')} (reports and log)`] : []),
    ...(others.length > 0 ? [`${others.join(', ')} (not built by this tool)`] : []),
  ];
  return parts.join('; ') || 'nothing';
}
