import { timeWords } from '../../sheets/report';
import type { SealReport } from './verify';

/** What a seal proves and what it does not; shown wherever one is made or checked. */
export const STATEMENT =
  'A seal shows that set-up, readings, formulas, results, names, input rules with their texts, number formats and protection of a sheet are those that stood there when it was sealed; that figures had these colours and sizes, that these rows, columns and this tab were shown or hidden, and that who, when and the history are as written then; and if not, what differs. ' +
  'It does not show that the readings were ever seen on a meter, that the person named made the seal, or that the clock was right. ' +
  'Anyone who can change the file can also remove a seal or make a new one. A signature adds that the seal was made by whoever holds the private key, for this sheet in this workbook; ' +
  'whose key that is must be known from elsewhere. An entire older copy of the workbook bears its older seals rightly. ' +
  'Not sealed, since not every program tells it, but told by a check of the file, and of the whole workbook in the pane: conditional formats, merged cells, notes, comments, links, drawings, fonts, opened ranges and settings of the workbook. ' +
  'Neither sealed nor checked: bold and slanted letters, borders, widths that show anything, lines of our lists that a filter hides, and what is printed above and below. Seals of the first form cover no colours, nothing hidden, no history.';

/** A report on a seal as plain text. */
export function sealText(report: SealReport): string {
  const { sheet, state, record, differences, signature, signer, reasons, history } = report;
  const lines = [`${sheet}: ${HEADLINES[state]}`];
  if (record) {
    lines.push(
      `  sealed by ${record.who || '(no name)'} on ${timeWords(record.when)}, seal ${record.sequence}, program ${record.program}`,
    );
    lines.push(`  SHA-256 ${record.hash}`);
  }
  if (signature !== 'none') lines.push(`  signature ${signature}${signer ? `, key ${signer}` : ''}`);
  lines.push(...reasons.map((reason) => `  ${reason}`));
  for (const { group, key, change, now, isHost } of differences) {
    const what = { cell: 'cell', result: 'result of', name: 'name', rule: 'input rule of', sheet: 'sheet' }[
      group
    ];
    lines.push(`  ${what} ${key} ${isHost ? 'not calculated here' : change}, now: ${now}`);
  }
  for (const { what, when, who, why } of history) {
    lines.push(`  history: ${what} on ${timeWords(when)} by ${who || '(no name)'}${why ? `: ${why}` : ''}`);
  }
  return `${lines.join('\n')}\n`;
}

const HEADLINES: Readonly<Record<SealReport['state'], string>> = {
  none: 'not sealed',
  deleted: 'THE SEAL WAS DELETED',
  holds: 'the seal holds',
  'not calculated':
    'the seal holds for all that was typed and built; results lack because the add-in was absent',
  broken: 'THE SEAL IS BROKEN',
  unreadable: 'the seal cannot be read',
};
