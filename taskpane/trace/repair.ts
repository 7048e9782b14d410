import { checkSheet } from '../../src/audit/check/check';
import { type Finding, REMEDIES, type RemedyId } from '../../src/audit/check/finding';
import { expectedOf } from '../../src/audit/expected';
import { broken } from '../../src/audit/formula/normal';
import { viewOf } from '../../src/audit/view';
import { type Host, HostError, type RestoredCell } from '../../src/excel/host';
import { addressOf, cellsOf, rectOf, refersTo } from '../../src/sheets/address';
import type { Plan } from '../../src/sheets/plan';
import { styleOf } from '../../src/sheets/style';
import { auditedBook } from './auditedbook';

/** What the button says, where the pane can do it; the rest a person does in the sheet. */
const ACTIONS: Partial<Record<RemedyId, string>> = {
  refresh: 'Refresh the results of the sheet',
  'restore-formula': 'Put the planned formula back',
  'restore-text': 'Put the planned text back',
  'restore-name': 'Set the name again',
  'restore-validation': 'Set the input rule again',
  'restore-format': 'Set the number format again',
  'restore-lock': 'Set the lock again',
  protect: 'Protect the sheet again',
  clear: 'Empty the cell',
};

/** What the repair of a finding is called; undefined where the pane has none. */
export function repairName(finding: Finding): string | undefined {
  const { sheet, remedy } = finding;
  if (!remedy || (sheet === '' && remedy !== 'restore-name')) return undefined;
  return ACTIONS[isRewritten(finding) ? 'restore-formula' : remedy];
}

/** Whether the repair enters all formulas of the sheet again, and not one cell's planned formula. */
export function isWholeSheet({ remedy, kind, found }: Finding): boolean {
  return remedy === 'refresh' && !isRewritten({ kind, found });
}

/** A call that a host has rewritten would be entered again as it stands; the planned one is put back instead. */
function isRewritten({ kind, found }: Pick<Finding, 'kind' | 'found'>): boolean {
  return kind === 'broken' && found.startsWith('=');
}

/** What can be done by hand about a finding that the pane cannot repair. */
export function adviceOf(finding: Finding): string {
  return finding.remedy && !repairName(finding) ? REMEDIES[finding.remedy] : '';
}

/**
 * Does what the remedy of some findings on one sheet says, and nothing else. The sheet is looked at once more first: of
 * findings that are no longer true nothing is done. Answers how many were.
 */
export async function repair(host: Host, findings: readonly Finding[]): Promise<number> {
  const { sheet } = findings[0]!;
  if (sheet === '') return (await repairOfWorkbook(host, findings[0]!)) ? 1 : 0;
  const book = await auditedBook(host, [sheet]);
  const found = book.sheets[0];
  const view = found && viewOf(found);
  const expected = view && expectedOf(view, book);
  if (!expected?.known) return 0;
  const now = checkSheet(view!, book);
  const left = findings.filter((finding) => now.some((each) => isSame(each, finding)));
  // Entering all formulas of the sheet again settles all of them at once.
  const [first] = left;
  const toDo = first && isWholeSheet(first) ? [first] : left;
  for (const finding of toDo) await act(host, finding, expected.plan);
  return left.length;
}

/** A name of the workbook that a program wrote as if it were in another workbook points into this one again. */
async function repairOfWorkbook(host: Host, { found, expected }: Finding): Promise<boolean> {
  const { names } = await host.book({ sheets: [] });
  const name = names.find(({ refersTo }) => refersTo === found && broken(refersTo)?.meant === expected);
  if (!name) return false;
  await host.editNames([{ remove: [], set: [{ ...name, refersTo: expected }] }]);
  return true;
}

function isSame(a: Finding, b: Finding): boolean {
  return a.at === b.at && a.kind === b.kind && a.message === b.message && a.found === b.found;
}

async function act(host: Host, finding: Finding, plan: Plan): Promise<void> {
  const { sheet, at = '' } = finding;
  switch (finding.remedy) {
    case 'refresh':
      if (isRewritten(finding)) return host.restore(sheet, { cells: [contentOf(plan, at)] });
      await host.refresh(sheet);
      return;
    case 'restore-formula':
    case 'restore-text':
      return host.restore(sheet, { cells: [contentOf(plan, at)] });
    case 'restore-format':
      return host.restore(sheet, { cells: [{ at, format: formatOf(plan, at) }] });
    case 'restore-lock':
      return host.restore(sheet, {
        cells: [{ at, isLocked: styleOf(plan.cells[at]!).locked !== false }],
      });
    case 'restore-validation': {
      const cells = new Set(cellsOf(at));
      const rules = plan.validations.filter(({ range }) => cellsOf(range).some((each) => cells.has(each)));
      return host.restore(sheet, { validations: rules });
    }
    case 'restore-name': {
      const names = plan.names.filter(
        ({ name, range }) => finding.expected === `${name} = ${addressOf(rectOf(range))}`,
      );
      return host.editNames([
        {
          sheet,
          remove: [],
          set: names.map(({ name, range, comment }) => ({ name, refersTo: refersTo(sheet, range), comment })),
        },
      ]);
    }
    case 'protect':
      return host.restore(sheet, plan.filter ? { filter: plan.filter } : {});
    case 'clear':
      return host.restore(sheet, { cells: [{ at, value: null }] });
    default:
      throw new HostError(
        'refused',
        'The pane has no repair for this finding.',
        adviceOf(finding) || 'Correct it in the sheet.',
      );
  }
}

function contentOf(plan: Plan, at: string): RestoredCell {
  const { formula, value } = plan.cells[at]!;
  return {
    at,
    format: formatOf(plan, at),
    ...(formula === undefined ? { value: value ?? null } : { formula }),
  };
}

function formatOf(plan: Plan, at: string): string {
  return plan.cells[at]?.format ?? 'General';
}
