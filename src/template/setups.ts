import { chain, good, type Outcome } from '../photometry/outcome';
import { samplingPlan } from '../procurement/lot/plan';
import { largestOf, type Need, need } from '../procurement/need/need';
import { taskContrast } from '../procurement/need/tasks';
import { type TenderPart, tender } from '../procurement/wording/tender';
import type { BatchSetup } from '../sheets/batch/setup';
import type { RoomSetup } from '../sheets/need';
import { defaultRunSetup, type ImageSetup, type RunSetup } from '../sheets/runsetup';
import type { Template } from './template';

/** The rooms with the reserves of the template where they have none of their own. */
export function roomsOf({ rooms, reserves }: Template): RoomSetup[] {
  return rooms.map((room) => ({
    ...room,
    ageing: room.ageing ?? reserves.ageing,
    mode: room.mode ?? reserves.mode,
    colourPart: room.colourPart ?? reserves.colourPart,
  }));
}

/** What a room needs; undefined where its ambient light is not known or its wish cannot be met. */
export function needOf(room: RoomSetup): Need | undefined {
  if (room.ambient === undefined) return undefined;
  const found = need({
    area: room.width * room.height,
    gain: room.gain,
    ambient: room.ambient,
    contrast: room.contrast ?? taskContrast(room.task).contrast,
    ...(room.ownContrast === undefined ? {} : { ownContrast: room.ownContrast }),
    ...(room.luminance === undefined ? {} : { luminance: room.luminance }),
    ageing: room.ageing,
    mode: room.mode,
    colourPart: room.colourPart,
  });
  return found.ok ? found.value : undefined;
}

/** The largest needs of all rooms that have one. */
function largestNeed(rooms: readonly RoomSetup[]): { white: number; colour: number } | undefined {
  return largestOf(rooms.flatMap((room) => needOf(room) ?? []));
}

/** The words for a tender: written from the fields, in place of which edited paragraphs stand. */
export function wordingOf(template: Template): Outcome<Record<TenderPart, string>> | undefined {
  const largest = largestNeed(roomsOf(template));
  if (!largest) return undefined;
  const { wording, decision, sample } = template;
  const plan = sample.units === undefined ? good(undefined) : samplingPlan(sample.units, sample.aql, sample);
  return chain(plan, (found) =>
    chain(
      tender({
        ...largest,
        standard: wording.standard,
        conditions: wording.conditions,
        fraction: decision.leastPart,
        rule: decision.rule,
        level: decision.level,
        ...(found ? { plan: found } : {}),
      }),
      (words) => {
        const edited = Object.entries(wording.paragraphs).filter(
          ([, text]) => text !== undefined && text !== '',
        );
        return good({ ...words, ...Object.fromEntries(edited) });
      },
    ),
  );
}

/** A unit that gets a run sheet. */
export interface Unit {
  readonly projector: string;
  readonly serial: string;
  readonly mode: string;
  readonly place: string;
  /** Line of the unit's room in the need, from 0. */
  readonly room?: number;
  readonly image?: ImageSetup;
  /** What its sheets are called by. */
  readonly label: string;
}

/** The units of a template: of its list, one a room, or the drawn sample. */
export function unitsOf(template: Template, sample: readonly string[]): Unit[] {
  const { runs } = template.sheets;
  switch (runs?.for) {
    case undefined:
      return [];
    case 'list':
      return runs.units.map((unit) => ({
        ...unit,
        label: [unit.projector, unit.mode].filter(Boolean).join(' '),
      }));
    case 'rooms':
      return template.rooms.map(({ room, width, height }, i) => ({
        projector: '',
        serial: '',
        mode: runs.mode,
        place: room,
        room: i,
        // The tape will tell better; until then the image is as large as the need has it.
        image: { shape: 'rectangle', known: 'width', length: width, unit: 'm', across: width, down: height },
        label: room,
      }));
    case 'sample':
      return sample.map((serial) => ({
        projector: runs.projector,
        serial,
        mode: runs.mode,
        place: '',
        label: serial,
      }));
  }
}

/** What all measurements of the template have in common. */
function commonOf({ meter, measuring, uncertainty, decision }: Template): RunSetup {
  const base = defaultRunSetup();
  return {
    ...base,
    ...measuring,
    image: measuring.image ?? base.image,
    meter,
    rated: { minimumFraction: decision.leastPart },
    uncertainty: { ...uncertainty, level: decision.level, rule: decision.rule },
  };
}

export function runOf(template: Template, { projector, serial, mode, place, image }: Unit): RunSetup {
  const common = commonOf(template);
  return { ...common, projector, serial, mode, place, image: image ?? common.image };
}

/** The batch of a template for the units of a lot; empty lines where the lot is not known yet. */
export function batchOf(
  template: Template,
  { readings, lines }: NonNullable<Template['sheets']['batch']>,
  serials: readonly string[],
  title: string,
): BatchSetup {
  const { projector, mode, measuredBy, meter, image, gain, rated, standard, uncertainty } =
    commonOf(template);
  const { runs } = template.sheets;
  return {
    title,
    projector: runs?.for === 'sample' ? runs.projector : projector,
    mode: runs?.for === 'sample' ? runs.mode : mode,
    measuredBy,
    meter,
    image,
    gain,
    rated,
    standard,
    uncertainty,
    readings,
    ambient: template.measuring.ambient === 'none' ? 'none' : 'once',
    stated: {},
    reference: { unit: '' },
    units: serials.map((serial) => ({ serial })),
    lines: Math.max(lines, serials.length),
  };
}
