/** What decides whether a row of the budgets is one and the same cause for two runs. */
export interface Sharing {
  /** 1 or 0, counted where two runs have one meter, where they have one image, and always. */
  readonly flags: readonly [meter: 0 | 1, image: 0 | 1, always: 0 | 1];
  /** False for what is drawn afresh with every reading: it can never be shared. */
  readonly isOpen: boolean;
}

export interface SharingOptions {
  /** The meter's ± digits count as shared: only sensible where the same ranges were used. */
  readonly digits: boolean;
  /** The spectral mismatch counts as shared: only sensible for light sources of one kind. */
  readonly spectral: boolean;
}
/** Light sources of two runs are of different kinds unless somebody says that they are of one. */
export const DEFAULT_SHARING: SharingOptions = { digits: false, spectral: false };

/** How a budget row is shared unless a person says otherwise on the sheet. */
export function sharingOf(label: string, { digits, spectral }: SharingOptions): Sharing {
  const open = (meter: boolean, image = false): Sharing => ({
    flags: [meter ? 1 : 0, image ? 1 : 0, 0],
    isOpen: true,
  });
  if (label.startsWith('Meter, ± of reading')) return open(true);
  if (label.startsWith('Meter, ± digits')) return open(digits);
  if (label.startsWith('Spectral')) return open(spectral);
  // One image hangs on one screen.
  if (label.startsWith('Image') || label.startsWith('Screen')) return open(false, true);
  if (label.startsWith('Repeatability') || label.startsWith('Display'))
    return { flags: [0, 0, 0], isOpen: false };
  return open(false);
}
