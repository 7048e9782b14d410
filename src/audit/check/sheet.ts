import { findingsPlan } from '../../sheets/findings';
import type { Plan } from '../../sheets/plan';
import type { Moment } from '../../sheets/report';
import type { CheckReport } from './check';
import { REMEDIES } from './finding';
import { answerOf } from './text';

/** What a check has found, as a sheet. @param id unique to the sheet, lower-case letters and digits */
export function findingsSheet(report: CheckReport, moment: Moment, id: string): Plan {
  const { sheets, records, others, findings, isCancelled } = report;
  return findingsPlan(
    {
      moment,
      sheets,
      records,
      others,
      isCancelled,
      outcome: answerOf(report),
      findings: findings.map(({ sheet, at = '', severity, message, expected, found, remedy }) => ({
        sheet,
        at,
        severity,
        message,
        expected,
        found,
        remedy: remedy ? REMEDIES[remedy] : '',
      })),
    },
    id,
  );
}
