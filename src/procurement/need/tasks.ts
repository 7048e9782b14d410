/** Contrasts that viewing tasks ask for, screen white to screen black with the room's light on it. */
const TASKS = {
  'passive viewing': {
    contrast: 7,
    meaning: 'the content is recognised; nobody works from it',
    source: 'ANSI/INFOCOMM 3M-2011 (name: publisher; number from memory)',
  },
  'basic decision making': {
    contrast: 15,
    meaning: 'text and pictures are read: classrooms, meeting rooms, presentations',
    source: 'AVIXA, table of viewing tasks (DISCAS)',
  },
  'analytical decision making': {
    contrast: 50,
    meaning: 'decisions hang on fine detail: drawings, medical or forensic pictures',
    source: 'AVIXA, table of viewing tasks (DISCAS)',
  },
  'full-motion video': {
    contrast: 80,
    meaning: 'films as their makers meant them',
    source: 'ANSI/INFOCOMM 3M-2011 (name: publisher; number from memory)',
  },
} as const;

export type ViewingTask = keyof typeof TASKS;
export const VIEWING_TASKS = Object.keys(TASKS) as [ViewingTask, ...ViewingTask[]];

export interface TaskContrast {
  /** Wanted contrast, to 1. */
  readonly contrast: number;
  readonly meaning: string;
  readonly source: string;
}

export function taskContrast(task: ViewingTask): TaskContrast {
  return TASKS[task];
}
