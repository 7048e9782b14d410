import { sha256 } from '@noble/hashes/sha2.js';
import {
  SEAL_FOUND,
  SEAL_STAMPS,
  SEALED_NAMES,
  SEALED_RESULTS,
  type SealStamp,
} from '../../../sheets/certificate/seal';
import type { Plan } from '../../../sheets/plan';
import { timeWords } from '../../../sheets/report';
import type { Finding } from '../../check/finding';
import { inWords, isSame } from '../../number';
import { base64url, utf8 } from '../../seal/bytes';
import type { SealRecord } from '../../seal/record';
import { sealOf } from '../../seal/seal';
import { thumbprintText } from '../../seal/sign';
import { gridOf, type SheetView, valueAt } from '../../view';
import { cellNamed } from '../cells';

/** What is expected where the run bears no seal. */
export const NO_SEAL = 'empty';

/** Whether what a certificate prints of a seal is what the run sheet bears; the tool writes these cells. */
export function checkStamps(view: SheetView, plan: Plan, run: SheetView): Finding[] {
  const found = sealOf(run);
  if (found === 'newer') return [];
  const isBlank = SEAL_STAMPS.every((name) => valueAt(view, cellNamed(plan, name)) === null);
  if (found && isBlank) return [];
  return SEAL_STAMPS.flatMap((name): Finding[] => {
    const at = cellNamed(plan, name);
    const value = valueAt(view, at) === '' ? null : valueAt(view, at);
    const wanted = found ? wantedOf(name, found, view, plan, run) : { value: null, words: NO_SEAL };
    const fits = 'pattern' in wanted ? wanted.pattern.test(String(value)) : isSame(value, wanted.value);
    if (fits) return [];
    return [
      {
        sheet: view.sheet.name,
        at,
        kind: 'stamp',
        severity: 'warning',
        message: found
          ? `${at} does not fit the seal of “${run.sheet.name}”: compare the run with its seal again.`
          : `${at} speaks of a seal that “${run.sheet.name}” does not bear.`,
        expected: wanted.words,
        found: inWords(value),
      },
    ];
  });
}

type Wanted =
  | { readonly value: string | number | null; readonly words: string }
  | { readonly pattern: RegExp; readonly words: string };

function wantedOf(name: SealStamp, record: SealRecord, view: SheetView, plan: Plan, run: SheetView): Wanted {
  const text = (value: string): Wanted => ({ value: value || null, words: value || 'empty' });
  switch (name) {
    case 'SealedBy':
      return text(record.who);
    case 'SealedOn':
      return text(timeWords(record.when));
    case 'SealHash':
      return text(record.hash);
    case 'SealKey':
      return text(record.signature ? keyOf(record.signature) : 'not signed');
    case 'SealCompared':
      return { pattern: /^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d UTC$/, words: 'a time' };
    case 'SealFound':
      return { pattern: new RegExp(`^(?:${SEAL_FOUND.join('|')})$`), words: SEAL_FOUND.join(' or ') };
    default:
      return resultThen(name, view, plan, run);
  }
}

/** A result found when it was compared; if the seal held then, the run still has it. */
function resultThen(name: SealStamp, view: SheetView, plan: Plan, run: SheetView): Wanted {
  const id = SEALED_RESULTS.find((each) => name === `Sealed${each}`)!;
  const now = gridOf(run, SEALED_NAMES[id])[0]?.[0] ?? null;
  if (valueAt(view, cellNamed(plan, 'SealFound')) !== SEAL_FOUND[0]) {
    return { pattern: /^(?:null|-?[\d.]+(?:e[+-]?\d+)?)$/i, words: 'a number, or empty' };
  }
  return typeof now === 'number' ? { value: now, words: String(now) } : { value: null, words: 'empty' };
}

function keyOf(key: { readonly x: string; readonly y: string }): string {
  return base64url(sha256(utf8(thumbprintText(key))));
}
