/** Viewing tasks: contrast with the room's light on the screen. */
export const TASK_CONTRASTS = [
  { task: 'basic decision making', printed: '15', source: 'AVIXA, table of viewing tasks (DISCAS)' },
  { task: 'analytical decision making', printed: '50', source: 'AVIXA, table of viewing tasks (DISCAS)' },
  { task: 'passive viewing', printed: '7', source: 'ANSI/INFOCOMM 3M-2011, from memory' },
  { task: 'full-motion video', printed: '80', source: 'ANSI/INFOCOMM 3M-2011, from memory' },
] as const;

/** Centre white of digital cinema (SMPTE ST 431-1:2006, as retold), and 14 fL of the same. */
export const CINEMA_WHITE = { luminance: 48, footlamberts: 14.009 };
