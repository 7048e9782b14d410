import { sidesProblem } from '../sheets/setup/sides';
import type { Template } from './template';

/** What the fields of a template do not allow together, each as a whole sentence. */
export function contradictions({ rooms, sheets, measuring }: Template): string[] {
  const { need, offers, runs, batch, acceptance, comparison, certificates, ageing, spot } = sheets;
  const problems: string[] = [];
  const isBuilt =
    need || offers || runs || batch || acceptance || spot || ageing !== 'none' || sheets.overview;
  if (!isBuilt) problems.push('sheets: no sheet is to be built; name at least one.');
  const shape = sidesProblem(measuring.image);
  if (shape) problems.push(`measuring.image: ${shape}`);
  if (!offers) {
    if (runs?.rated === 'chosen offer')
      problems.push('sheets.runs.rated: "chosen offer" needs sheets.offers, which is left out.');
    if (batch?.rated === 'chosen offer')
      problems.push('sheets.batch.rated: "chosen offer" needs sheets.offers, which is left out.');
    if (acceptance?.least === 'chosen offer')
      problems.push('sheets.acceptance.least: "chosen offer" needs sheets.offers, which is left out.');
  }
  if (!need && acceptance?.least === 'need')
    problems.push('sheets.acceptance.least: "need" needs sheets.need, which is left out.');
  if (!runs) {
    if (comparison) problems.push('sheets.comparison: it needs sheets.runs, which is left out.');
    if (certificates) problems.push('sheets.certificates: they need sheets.runs, which is left out.');
    if (spot) problems.push('sheets.spot: it needs the units of sheets.runs, which is left out.');
    if (ageing === 'each unit')
      problems.push('sheets.ageing: "each unit" needs the units of sheets.runs, which is left out.');
  }
  if (runs?.for === 'rooms' && rooms.length === 0)
    problems.push('sheets.runs.for: "rooms" needs rooms, and the list of rooms is empty.');
  return problems;
}
