import { findingsPlan } from '../../sheets/findings';
import type { Plan } from '../../sheets/plan';
import type { Moment } from '../../sheets/report';
import { byCause, cellsOfCause } from './causes';
import type { CheckReport } from './check';
import { REMEDIES } from './finding';
import { answerOf } from './text';

/** Cells of one cause that are listed on the sheet. */
const LISTED = 30;

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
      findings: byCause(findings).map((cause) => {
        const { sheet, at = '', severity, message, expected, found, remedy } = cause.finding;
        const same = cause.others.length > 0 ? ` The same: ${cellsOfCause(cause, LISTED)}.` : '';
        return {
          sheet,
          at,
          severity,
          message: `${message}${same}`,
          expected,
          found,
          remedy: remedy ? REMEDIES[remedy] : '',
        };
      }),
    },
    id,
  );
}
