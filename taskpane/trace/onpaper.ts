import { certificatesOf, certifiedSeal, stampsFor } from '../../src/audit/seal/stamp';
import { type SealReport, verify } from '../../src/audit/seal/verify';
import { viewOf } from '../../src/audit/view';
import type { Host } from '../../src/excel/host';
import type { CertifiedSeal } from '../../src/sheets/certificate/seal';
import { auditedBook } from './auditedbook';

/** What a certificate of a run is to say of its seal, compared now; undefined where there is none. */
export async function foundSeal(host: Host, run: string, now: string): Promise<CertifiedSeal | undefined> {
  const book = await auditedBook(host, [run]);
  const sheet = book.sheets[0];
  if (!sheet) return undefined;
  return certifiedSeal(await verify(book, run, { subtle: crypto.subtle }), viewOf(sheet), now);
}

/**
 * Writes what a comparison came to on the certificates that are linked to the run. Answers in words which say so
 * now and which could not; empty if there is none.
 */
export async function writeOnPapers(host: Host, report: SealReport, now: string): Promise<string> {
  const papers = (await host.survey()).sheets.filter(({ kind }) => kind === 'certificate');
  if (papers.length === 0) return '';
  const book = await host.book({ sheets: [report.sheet, ...papers.map(({ sheet }) => sheet)] });
  const run = book.sheets.find(({ name }) => name === report.sheet);
  if (!run) return '';
  const { open, sealed } = certificatesOf(book, report.sheet);
  const seal = certifiedSeal(report, viewOf(run), now);
  const written: string[] = [];
  const left = sealed.map(({ sheet }) => `\u201c${sheet.name}\u201d is sealed itself and stays as it is.`);
  for (const view of open) {
    const { name } = view.sheet;
    const cells = stampsFor(view, seal);
    if (cells.length === 0) left.push(`\u201c${name}\u201d has no place for it: build the certificate anew.`);
    else {
      await host.restore(name, { cells });
      written.push(`\u201c${name}\u201d`);
    }
  }
  const said =
    written.length > 0 ? [`${written.join(', ')} ${written.length === 1 ? 'says' : 'say'} so.`] : [];
  return [...said, ...left].join(' ');
}

/** Whether the workbook has a certificate at all, so that writing on it can be offered. */
export async function hasPaper(host: Host, run: string): Promise<boolean> {
  const papers = (await host.survey()).sheets.filter(({ kind }) => kind === 'certificate');
  if (papers.length === 0) return false;
  return certificatesOf(await host.book({ sheets: papers.map(({ sheet }) => sheet) }), run).open.length > 0;
}
