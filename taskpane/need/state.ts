import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { largestOf } from '../../src/procurement/need/need';
import { needPlan } from '../../src/sheets/need';
import { buildSheet } from '../form/build';
import { createForm, type Form, type Restore } from '../form/form';
import { createLines, type Lines } from '../form/lines';
import type { Store } from '../store';
import { type Followed, follow } from '../store/follow';
import { perStore } from '../store/perstore';
import { goesWith, refused, type Said } from '../store/said';
import { ROOM, type RoomField } from './fields';
import { roomsOnSheet } from './take';
import { isBlankRoom, type UnderstoodRoom, understandRoom } from './understoodroom';
import { type NeedView, nameOf, needView } from './view';
import { TENDER, type TenderField, type UnderstoodTender, understandTender } from './wording';

export interface RoomEntry {
  readonly form: Form<RoomField>;
  readonly understood: UnderstoodRoom;
}

/** The need step: rooms, the words for a tender, building the sheet, and the sheet that is there. */
export interface NeedStep {
  readonly rooms: ReadonlySignal<readonly RoomEntry[]>;
  /** The largest white and colour of all rooms that are fit, lm. */
  readonly largest: ReadonlySignal<{ readonly white: number; readonly colour: number } | undefined>;
  /** Below each other; rooms come and go here. */
  readonly lines: Lines<RoomField>;
  readonly tender: Form<TenderField>;
  readonly understoodTender: ReadonlySignal<UnderstoodTender>;
  readonly followed: Followed;
  readonly view: ReadonlySignal<NeedView | undefined>;
  /** What the last action did or could not do. */
  readonly report: ReadonlySignal<Said>;
  readonly sheetReport: ReadonlySignal<string>;
  snapshot(): Restore;
  build(): Promise<void>;
  /** Takes the rooms of the shown sheet, or of another one, into the form, in place of what stands there. */
  takeSheet(reading?: SheetReading): void;
  /** Writes the first paragraph of the shown sheet anew, with its largest figures. */
  renew(): Promise<void>;
}

export const MOST_ROOMS = 100;
/** Empty lines for rooms that come later. */
const SPARE = 5;

/** The step's state; it outlives looking at another page. */
export const needOf = perStore(createNeed);

function createNeed(store: Store): NeedStep {
  const { host, workbook, troubles, makeId } = store;
  const lines = createLines(() => createForm(ROOM, { name: 'need' }), MOST_ROOMS);
  const tender = createForm(TENDER, { name: 'need' });
  const report = signal<Said>('');
  const sheetReport = signal('');
  goesWith(report, () => [tender, ...lines.forms.value].map(({ texts }) => texts.value));
  const rooms = computed(() =>
    lines.forms.value.map((form) => ({
      form,
      understood: understandRoom(form.texts.value, form.reads.value),
    })),
  );
  const understoodTender = computed(() => understandTender(tender.texts.value, tender.reads.value));
  const largest = computed(() => largestOf(rooms.value.flatMap(({ understood }) => understood.need ?? [])));
  const followed = follow(store, 'need', 'need');
  const view = computed(() => followed.reading.value && needView(followed.reading.value));

  /** The rooms to build with, or why nothing can be built. */
  function setupNow() {
    const begun = rooms.value.filter(({ form }) => !isBlankRoom(form.texts.value));
    if (begun.length === 0) return 'no room is described yet.';
    const bad = begun.filter(({ understood }) => !understood.need).length;
    if (bad > 0) return `${bad === 1 ? 'one room needs' : `${bad} rooms need`} another look.`;
    const words = largest.value && understoodTender.value.words(largest.value);
    if (!words?.ok) return 'the words for the tender need another look.';
    return { rooms: begun.flatMap(({ understood }) => understood.setup ?? []), wording: words.value };
  }

  return {
    rooms,
    largest,
    lines,
    tender,
    understoodTender,
    followed,
    view,
    report,
    sheetReport,
    snapshot: () => {
      const restores = [lines.snapshot(), tender.snapshot()];
      return () => {
        for (const restore of restores) restore();
        report.value = '';
      };
    },
    build: async () => {
      lines.showAll();
      tender.showAll();
      report.value = '';
      const setup = setupNow();
      if (typeof setup === 'string') {
        report.value = refused(`Nothing was built: ${setup}`);
        return;
      }
      const sheet = await buildSheet(store, 'need sheet', () =>
        needPlan({ ...setup, spare: SPARE }, makeId()),
      );
      if (sheet) followed.pick(sheet);
    },
    takeSheet: (reading = followed.reading.peek()) => {
      if (!reading) return;
      const { rooms: taken, left } = roomsOnSheet(reading, MOST_ROOMS);
      lines.put(taken);
      const words = `Taken from \u201c${reading.sheet}\u201d: ${taken.length} ${taken.length === 1 ? 'room' : 'rooms'}. What is changed here goes into a new sheet.`;
      sheetReport.value =
        left === 0 ? words : `${words} ${left} more found no room: the pane holds ${MOST_ROOMS}.`;
    },
    renew: async () => {
      sheetReport.value = '';
      const { white, colour, sheet } = view.value ?? {};
      if (white === undefined || colour === undefined || sheet === undefined) return;
      const words = understoodTender.value.words({ white, colour });
      if (!words.ok) {
        sheetReport.value = 'The fields of the wording need another look first.';
        return;
      }
      const { need } = words.value;
      const attempt = await troubles.attempt('Writing the first paragraph', () =>
        host.write(sheet, nameOf('need'), [[need]]),
      );
      if (attempt.ok) sheetReport.value = 'The first paragraph names the figures of the sheet again.';
      await workbook.look();
    },
  };
}
