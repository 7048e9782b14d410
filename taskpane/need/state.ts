import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { largestOf } from '../../src/procurement/need/need';
import { needPlan } from '../../src/sheets/need';
import type { DecimalMark } from '../parse/number';
import type { Store } from '../store';
import { type Followed, follow } from '../store/follow';
import { perStore } from '../store/perstore';
import { refused, type Said } from '../store/said';
import { type RoomField, type RoomNumber, type RoomTexts, startRoom } from './fields';
import { isBlankRoom, type Marks, type UnderstoodRoom, understandRoom } from './room';
import { roomsOnSheet } from './take';
import { type NeedView, nameOf, needView } from './view';
import { START_TENDER, type TenderTexts, type UnderstoodTender, understandTender } from './wording';

export interface RoomEntry {
  /** Tells lines apart while lines above them go. */
  readonly key: number;
  readonly texts: RoomTexts;
  readonly marks: Marks;
  readonly understood: UnderstoodRoom;
}

/** The need step: rooms, the words for a tender, building the sheet, and the sheet that is there. */
export interface NeedStep {
  readonly rooms: ReadonlySignal<readonly RoomEntry[]>;
  /** The largest white and colour of all rooms that are fit, lm. */
  readonly largest: ReadonlySignal<{ readonly white: number; readonly colour: number } | undefined>;
  readonly tender: ReadonlySignal<TenderTexts>;
  readonly understoodTender: ReadonlySignal<UnderstoodTender>;
  readonly isAllShown: ReadonlySignal<boolean>;
  readonly followed: Followed;
  readonly view: ReadonlySignal<NeedView | undefined>;
  /** What the last action did or could not do. */
  readonly report: ReadonlySignal<Said>;
  readonly sheetReport: ReadonlySignal<string>;
  /** How the form stands now; calling what comes back puts it so again. */
  snapshot(): () => void;
  type(key: number, id: RoomField, text: string): void;
  decide(key: number, id: RoomNumber, mark: DecimalMark): void;
  add(): void;
  drop(key: number): void;
  typeTender(id: keyof TenderTexts, text: string): void;
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
  const { host, workbook, troubles, front, makeId } = store;
  let next = 1;
  const fresh = () => ({ key: next++, texts: startRoom(), marks: {} as Marks });
  const lines = signal([fresh()]);
  const tender = signal(START_TENDER);
  const isAllShown = signal(false);
  const report = signal<Said>('');
  const sheetReport = signal('');
  const rooms = computed(() =>
    lines.value.map((line) => ({ ...line, understood: understandRoom(line.texts, line.marks) })),
  );
  const understoodTender = computed(() => understandTender(tender.value));
  const largest = computed(() => largestOf(rooms.value.flatMap(({ understood }) => understood.need ?? [])));
  const followed = follow(store, 'need', 'need');
  const view = computed(() => followed.reading.value && needView(followed.reading.value));
  const change = (key: number, to: (line: (typeof lines.value)[number]) => (typeof lines.value)[number]) => {
    lines.value = lines.value.map((line) => (line.key === key ? to(line) : line));
  };

  /** The rooms to build with, or why nothing can be built. */
  function setupNow() {
    const begun = rooms.value.filter(({ texts }) => !isBlankRoom(texts));
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
    tender,
    understoodTender,
    isAllShown,
    followed,
    view,
    report,
    sheetReport,
    snapshot: () => {
      const [before, words] = [lines.peek(), tender.peek()];
      return () => {
        lines.value = before;
        tender.value = words;
        isAllShown.value = false;
        report.value = '';
      };
    },
    type: (key, id, text) =>
      change(key, (line) => ({
        ...line,
        texts: { ...line.texts, [id]: text },
        marks: { ...line.marks, [id]: undefined },
      })),
    decide: (key, id, mark) => change(key, (line) => ({ ...line, marks: { ...line.marks, [id]: mark } })),
    add: () => {
      if (lines.value.length < MOST_ROOMS) lines.value = [...lines.value, fresh()];
    },
    drop: (key) => {
      const kept = lines.value.filter((line) => line.key !== key);
      lines.value = kept.length > 0 ? kept : [fresh()];
    },
    typeTender: (id, text) => {
      tender.value = { ...tender.value, [id]: text };
    },
    build: async () => {
      isAllShown.value = true;
      report.value = '';
      const setup = setupNow();
      if (typeof setup === 'string') {
        report.value = refused(`Nothing was built: ${setup}`);
        return;
      }
      const attempt = await troubles.attempt('Building the need sheet', () =>
        host.build(needPlan({ ...setup, spare: SPARE }, makeId())),
      );
      if (!attempt.ok) return;
      followed.pick(attempt.value.sheet);
      await workbook.look();
      front.arrive(`Built the sheet \u201c${attempt.value.sheet}\u201d.`);
    },
    takeSheet: (reading = followed.reading.peek()) => {
      if (!reading) return;
      const { rooms: taken, left } = roomsOnSheet(reading, MOST_ROOMS);
      lines.value = taken.length > 0 ? taken.map((room) => ({ key: next++, ...room })) : [fresh()];
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
