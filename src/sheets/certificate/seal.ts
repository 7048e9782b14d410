import type { PlanBuilder } from '../builder';
import { linkTo } from '../link';
import type { CellName } from '../names/all';
import type { PlanCell } from '../plan';
import { FORMAT } from '../run/layout';
import type { CertifiedRun } from './run';

/** What a certificate says of the seal of its run sheet. */
export interface CertifiedSeal {
  readonly who: string;
  /** In words: `2026-11-25 09:30:00 UTC`. */
  readonly when: string;
  readonly hash: string;
  /** Thumbprint of the key that signed; empty if the seal is not signed. */
  readonly key: string;
  /** When the run sheet was compared with its seal, in words. */
  readonly compared: string;
  readonly found: SealFound;
  /** Results as they stood then; those that are no numbers are left out. */
  readonly results: Readonly<Partial<Record<SealedResult, number>>>;
}

/** What comparing came to, in the words that stand on the paper. */
export const SEAL_FOUND = ['it holds', 'IT DOES NOT HOLD'] as const;
type SealFound = (typeof SEAL_FOUND)[number];

export const SEALED_RESULTS = ['White', 'Colour', 'Ratio'] as const;
export type SealedResult = (typeof SEALED_RESULTS)[number];

/** Names of the run sheet behind them. */
export const SEALED_NAMES: Readonly<Record<SealedResult, CellName>> = {
  White: 'WhiteLightOutputPlain',
  Colour: 'ColourLightOutputPlain',
  Ratio: 'ColourToWhitePlain',
};

/** Names of the cells that the tool writes when the run is sealed, compared or opened again. */
export const SEAL_STAMPS = [
  'SealedBy',
  'SealedOn',
  'SealHash',
  'SealKey',
  'SealCompared',
  'SealFound',
  ...SEALED_RESULTS.map((id) => `Sealed${id}` as const),
] as const;
export type SealStamp = (typeof SEAL_STAMPS)[number];

/** What stands in those cells; empty where the run is not sealed. */
export function stampValues(seal: CertifiedSeal | undefined): Record<SealStamp, string | number | null> {
  return {
    SealedBy: seal?.who || null,
    SealedOn: seal?.when ?? null,
    SealHash: seal?.hash ?? null,
    SealKey: seal ? seal.key || 'not signed' : null,
    SealCompared: seal?.compared ?? null,
    SealFound: seal?.found ?? null,
    SealedWhite: seal?.results.White ?? null,
    SealedColour: seal?.results.Colour ?? null,
    SealedRatio: seal?.results.Ratio ?? null,
  };
}

/**
 * The seal of the run sheet: who, when, its hash, and in a live sentence whether the results above are still those
 * that stood there when it was compared. Returns the first row below.
 */
export function putSeal(
  b: PlanBuilder,
  row: number,
  run: CertifiedRun,
  seal: CertifiedSeal | undefined,
): number {
  const values = stampValues(seal);
  const stamp = (cells: string, name: SealStamp, words: string, format = '@') => {
    const value = values[name];
    const cell: PlanCell = { role: 'stamp', format, ...(value === null ? {} : { value }) };
    b.wide(cells, cell).name(name, cells.split(':')[0]!, words);
  };
  const label = (at: string, value: string) => b.put(at, { role: 'label', value });
  b.wide(`A${row}:F${row}`, { role: 'heading', value: 'Seal of the run sheet' });
  label(`A${row + 1}`, 'Sealed by');
  stamp(`B${row + 1}:C${row + 1}`, 'SealedBy', 'Who sealed the run sheet, as stated');
  label(`D${row + 1}`, 'Sealed on');
  stamp(
    `E${row + 1}:F${row + 1}`,
    'SealedOn',
    'When the run sheet was sealed, by the clock of that computer',
  );
  label(`A${row + 2}`, 'SHA-256');
  stamp(
    `B${row + 2}:F${row + 2}`,
    'SealHash',
    'SHA-256 of set-up, readings, formulas and results of the run sheet',
  );
  label(`A${row + 3}`, 'Signed with the key');
  stamp(`B${row + 3}:F${row + 3}`, 'SealKey', 'Thumbprint (RFC 7638) of the key that signed the seal');
  label(`A${row + 4}`, 'Compared on');
  stamp(`B${row + 4}:C${row + 4}`, 'SealCompared', 'When the run sheet was last compared with its seal');
  label(`D${row + 4}`, 'and found that');
  stamp(`E${row + 4}:F${row + 4}`, 'SealFound', 'What comparing came to');
  label(`A${row + 5}`, 'Results found then');
  const formats = { White: FORMAT.lumens, Colour: FORMAT.lumens, Ratio: '0.0000' };
  SEALED_RESULTS.forEach((id, i) => {
    const at = `${'BCD'[i]}${row + 5}`;
    stamp(at, `Sealed${id}`, `${id} as it stood when compared`, formats[id]);
  });
  b.wide(`E${row + 5}:F${row + 5}`, { role: 'note', value: 'white and colour in lm, ratio' });
  b.wide(`A${row + 6}:F${row + 6}`, { role: 'caution', formula: sentence(run) }).height(row + 6, 30);
  b.name('SealState', `A${row + 6}`, 'Whether the results above are those that were sealed');
  return row + 7;
}

/** What the live sentence says, by how the run stands. */
export const SEAL_SENTENCES = {
  none: 'NOT SEALED: nothing shows that readings and formulas of the run sheet stay as they are.',
  broken: 'THE SEAL DID NOT HOLD when the run sheet was compared with it: look there before anybody signs.',
  changed: 'CHANGED: results above are no longer those that stood there when the seal was compared.',
  sealed:
    'Sealed: the results above are those that stood there when the seal was compared. The file shows whether it still holds.',
} as const;

/** A result that is no number counts as differing only if it was one. */
function sentence(run: CertifiedRun): string {
  const changed = SEALED_RESULTS.flatMap((id) => {
    const link = linkTo(run, SEALED_NAMES[id]);
    const then = `Sealed${id}`;
    if (!link) return [];
    return [
      `IF(COUNT(${link},${then})=2,ABS(${link}-${then})>0.00000001*ABS(${then}),COUNT(${link})<>COUNT(${then}))`,
    ];
  });
  const isChanged = changed.length > 0 ? `OR(${changed.join(',')})` : 'FALSE';
  const { none, broken, changed: altered, sealed } = SEAL_SENTENCES;
  const [holds] = SEAL_FOUND;
  return `=IF(LEN(SealFound)=0,"${none}",IF(SealFound<>"${holds}","${broken}",IF(${isChanged},"${altered}","${sealed}")))`;
}
