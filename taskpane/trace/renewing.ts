import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { linksUnder, type MovedLinks, type UpToDate, upToDate } from '../../src/audit/older/update';
import { isOlderLayout } from '../../src/audit/today';
import { HostError } from '../../src/excel/host';
import { perStore } from '../store/perstore';

/** A sheet of an earlier layout, and what bringing it up to date would come to. */
export interface Looked {
  readonly sheet: string;
  readonly made: UpToDate;
}

/** A sheet that was built beside an older one, and the links that still go to that. */
export interface Renewed {
  readonly sheet: string;
  readonly before: string;
  /** What it was to be called when the links were written. */
  readonly meant: string;
  readonly links: readonly MovedLinks[];
}

/** Bringing the sheet in front up to date: first what would differ, then the new sheet, then its links. */
export interface Renewing {
  /** The sheet in front, if its layout is of before. */
  readonly older: ReadonlySignal<string | undefined>;
  readonly looked: ReadonlySignal<Looked | undefined>;
  readonly movesLinks: ReadonlySignal<boolean>;
  /** The last sheet that was built, as long as links to the older one are left. */
  readonly built: ReadonlySignal<Renewed | undefined>;
  readonly said: ReadonlySignal<string>;
  tick(movesLinks: boolean): void;
  look(): Promise<void>;
  build(): Promise<void>;
  /** Lets the links that are left go to the new sheet. */
  moveLinks(): Promise<void>;
}

export const renewingOf = perStore(({ host, program, workbook, troubles, author, log, makeId }): Renewing => {
  const looked = signal<Looked | undefined>(undefined);
  const movesLinks = signal(false);
  const built = signal<Renewed | undefined>(undefined);
  const said = signal('');

  const older = computed(() => {
    const survey = workbook.survey.value;
    const front = survey?.sheets.find(({ sheet }) => sheet === survey.active);
    return front && isOlderLayout(front) ? front.sheet : undefined;
  });

  /** What it would come to now: the workbook may have changed since it was shown. */
  async function lookAt(sheet: string): Promise<Looked> {
    const answer = upToDate(await host.book(), sheet, author.moment(), makeId);
    if (!answer.ok)
      throw new HostError('refused', answer.why, 'The sheet stays readable and is checked as it is.');
    return { sheet, made: answer.made };
  }

  /** Sheet by sheet, each whole or not at all; what did not go is left and can be tried again. */
  async function move({ sheet, before, meant, links }: Renewed): Promise<string> {
    const stay = links.filter(({ stays }) => stays !== undefined);
    let left = links.filter(({ stays }) => stays === undefined);
    let count = 0;
    for (const link of left) {
      const formulas = linksUnder(link, meant, sheet);
      await host.restore(link.sheet, {
        cells: Object.entries(formulas).map(([at, formula]) => ({ at, formula })),
      });
      count += Object.keys(formulas).length;
      left = left.filter((each) => each !== link);
      built.value = left.length > 0 ? { sheet, before, meant, links: [...left, ...stay] } : undefined;
      void log.note('renewed', link.sheet, `Links to “${before}” go to “${sheet}”`);
    }
    return [
      `${count} ${count === 1 ? 'link goes' : 'links go'} to “${sheet}” now.`,
      ...stay.map((link) => `The links of “${link.sheet}” stay: ${link.stays}.`),
    ].join(' ');
  }

  return {
    older,
    looked,
    movesLinks,
    built,
    said,
    tick: (moves) => {
      movesLinks.value = moves;
    },
    look: async () => {
      said.value = '';
      looked.value = undefined;
      const sheet = older.peek();
      if (sheet === undefined) return;
      const attempt = await troubles.attempt('Looking what would differ', () => lookAt(sheet));
      if (attempt.ok) looked.value = attempt.value;
    },
    build: async () => {
      const shown = looked.peek();
      if (!shown) return;
      said.value = '';
      const before = shown.sheet;
      const attempt = await troubles.attempt('Bringing the sheet up to date', async () => {
        const { made } = await lookAt(before);
        const { sheet } = await program.build(made.plan);
        built.value = made.links.some(({ stays }) => stays === undefined)
          ? { sheet, before, meant: made.name, links: made.links }
          : undefined;
        looked.value = undefined;
        void log.note('renewed', sheet, `From “${before}”; ${made.differences.length} figures differ`);
        const words = [`“${sheet}” is built from what was typed on “${before}”, which stays as it is.`];
        said.value = words[0]!;
        const table = await program.build(made.table);
        words.push(`“${table.sheet}” lists what differs and why.`);
        if (movesLinks.peek() && built.peek()) words.push(await move(built.peek()!));
        return words.join(' ');
      });
      if (attempt.ok) said.value = attempt.value;
      await workbook.look();
    },
    moveLinks: async () => {
      const left = built.peek();
      if (!left) return;
      said.value = '';
      const attempt = await troubles.attempt('Moving the links', () => move(left));
      if (attempt.ok) said.value = attempt.value;
      await workbook.look();
    },
  };
});
