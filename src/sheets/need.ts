import { GAIN, IMAGE_METRES, TINY } from '../photometry/bounds';
import { taskContrast, VIEWING_TASKS, type ViewingTask } from '../procurement/need/tasks';
import { DEFAULT_STANDARD, TENDER_PARTS, type TenderPart } from '../procurement/wording/tender';
import { PlanBuilder } from './builder';
import { agreement } from './phrases/agree';
import type { Plan } from './plan';
import { type Column, type PlacedRows, putRows } from './rows';

export const NEED_VERSION = 4;

/** A room that is to get a projector. Lengths in metres, reserves and part as parts of 1. */
export interface RoomSetup {
  readonly room: string;
  readonly width: number;
  readonly height: number;
  readonly gain: number;
  /** Illuminance of the room's own light on the screen, lux. */
  readonly ambient?: number;
  readonly task: ViewingTask;
  /** Instead of the task's contrast. */
  readonly contrast?: number;
  readonly ownContrast?: number;
  /** Wanted luminance of white, cd/m². */
  readonly luminance?: number;
  readonly ageing: number;
  readonly mode: number;
  readonly colourPart: number;
}

export interface NeedSetup {
  readonly rooms: readonly RoomSetup[];
  /** Empty lines left for further rooms. */
  readonly spare: number;
  /** Paragraphs for a tender, to be edited on the sheet; left out where there are none yet. */
  readonly wording?: Readonly<Record<TenderPart, string>>;
}

/** Sensible start for a room: a matt screen, 30 % and 20 % in reserve for ageing and for the daily mode. */
export function defaultRoom(room = ''): RoomSetup {
  return {
    room,
    width: 2,
    height: 1.25,
    gain: 1,
    ambient: 50,
    task: 'basic decision making',
    ageing: 0.7,
    mode: 0.8,
    colourPart: 1,
  };
}

const number = (min: number, max: number) => ({ type: 'number', min, max }) as const;

/** Wanted contrast by task, spelled out so that any program can follow. */
const taskChain = (task: string) =>
  VIEWING_TASKS.reduceRight(
    (rest, name) => `IF(${task}="${name}",${taskContrast(name).contrast},${rest})`,
    '""',
  );

/** Columns of the table of rooms, by their keys. */
export const NEED_COLUMNS: readonly Column<RoomSetup>[] = [
  {
    key: 'room',
    label: 'Room',
    unit: '',
    width: 22,
    role: 'input',
    format: '@',
    value: ({ room }) => room || undefined,
    rule: { type: 'length', max: 80 },
    why: 'Name of the room.',
    name: 'Rooms',
  },
  {
    key: 'width',
    label: 'Image width',
    unit: 'm',
    width: 9,
    role: 'input',
    value: ({ width }) => width,
    rule: { type: 'number', ...IMAGE_METRES },
    why: 'Width of the image.',
    name: 'RoomWidth',
  },
  {
    key: 'height',
    label: 'Image height',
    unit: 'm',
    width: 9,
    role: 'input',
    value: ({ height }) => height,
    rule: { type: 'number', ...IMAGE_METRES },
    why: 'Height of the image.',
    name: 'RoomHeight',
  },
  {
    key: 'gain',
    label: 'Screen gain',
    unit: '',
    width: 9,
    role: 'input',
    value: ({ gain }) => gain,
    rule: { type: 'number', ...GAIN },
    why: 'Gain of the screen towards the viewers; 1 for matt white.',
    name: 'RoomGain',
  },
  {
    key: 'ambient',
    label: 'Ambient on screen',
    unit: 'lx',
    width: 11,
    role: 'input',
    value: ({ ambient }) => ambient,
    rule: number(TINY, 200_000),
    why: 'Illuminance of the room’s own light on the screen, projector dark, as the room is used.',
    name: 'RoomAmbient',
  },
  {
    key: 'task',
    label: 'Viewing task',
    unit: '',
    width: 34,
    role: 'choice',
    value: ({ task }) => task,
    rule: { type: 'list', choices: VIEWING_TASKS },
    why: 'What people do with the picture: it decides the contrast.',
    name: 'RoomTask',
  },
  {
    key: 'contrast',
    label: 'Own wish for contrast',
    unit: 'to 1',
    width: 12,
    role: 'input',
    value: ({ contrast }) => contrast,
    rule: number(1.000001, 1_000_000),
    why: 'Instead of the task’s contrast; empty: the task decides.',
    name: 'RoomContrast',
  },
  {
    key: 'own',
    label: 'Projector’s contrast',
    unit: 'to 1',
    width: 13,
    role: 'input',
    value: ({ ownContrast }) => ownContrast,
    rule: number(1.000001, 10_000_000),
    why: 'The projector’s own contrast in the dark; empty: taken as unlimited.',
    name: 'RoomOwnContrast',
  },
  {
    key: 'luminance',
    label: 'Wanted luminance',
    unit: 'cd/m²',
    width: 13,
    role: 'input',
    value: ({ luminance }) => luminance,
    rule: number(TINY, 100_000),
    why: 'Wanted luminance of white on the screen; empty: contrast alone decides.',
    name: 'RoomLuminance',
  },
  {
    key: 'ageing',
    label: 'Left after ageing',
    unit: 'part',
    width: 9,
    role: 'input',
    format: '0 %',
    value: ({ ageing }) => ageing,
    rule: number(0.01, 1),
    why: 'What is left of the light at the end of the planned use.',
    name: 'RoomAgeing',
  },
  {
    key: 'mode',
    label: 'Daily mode',
    unit: 'part',
    width: 8,
    role: 'input',
    format: '0 %',
    value: ({ mode }) => mode,
    rule: number(0.01, 1),
    why: 'What the mode in daily use gives of the rated mode.',
    name: 'RoomMode',
  },
  {
    key: 'part',
    label: 'Colour of white',
    unit: 'part',
    width: 8,
    role: 'input',
    format: '0 %',
    value: ({ colourPart }) => colourPart,
    rule: number(0.01, 1),
    why: 'Colour light output asked for as a part of white; 100 % unless you have a reason.',
    name: 'RoomColourPart',
  },
  {
    key: 'area',
    label: 'Image area',
    unit: 'm²',
    width: 9,
    role: 'derived',
    format: '0.000',
    formula: (at) => `IF(COUNT(${at('width')},${at('height')})=2,${at('width')}*${at('height')},"")`,
  },
  {
    key: 'wanted',
    label: 'Contrast wanted',
    unit: 'to 1',
    width: 9,
    role: 'derived',
    format: '0.0',
    formula: (at) => `IF(ISNUMBER(${at('contrast')}),${at('contrast')},${taskChain(at('task'))})`,
  },
  {
    key: 'white',
    label: 'White to ask for',
    unit: 'lm, LIGHT',
    width: 12,
    role: 'called',
    format: '#,##0',
    formula: (at) =>
      guard(
        at,
        `LIGHT.NEED(${at('area')},${at('ambient')},${at('wanted')},${at('luminance')},${at('own')},${at('gain')},${at('ageing')},${at('mode')})`,
      ),
  },
  {
    key: 'plain',
    label: 'White to ask for',
    unit: 'lm, plain',
    width: 12,
    role: 'twin',
    format: '#,##0',
    formula: (at) => guard(at, need(at)),
    name: 'RoomWhite',
  },
  {
    key: 'agree',
    label: 'the two',
    unit: '',
    width: 16,
    role: 'check',
    formula: (at) => agreement(at('white'), at('plain')),
    name: 'Agreement',
  },
  {
    key: 'colour',
    label: 'Colour to ask for',
    unit: 'lm',
    width: 11,
    role: 'result',
    format: '#,##0',
    formula: (at) => `IF(COUNT(${at('plain')},${at('part')})<2,"",${at('plain')}*${at('part')})`,
    name: 'RoomColour',
  },
  {
    key: 'governs',
    label: 'Decided by',
    unit: '',
    width: 10,
    role: 'check',
    formula: (at) =>
      `IF(ISNUMBER(${at('plain')}),IF(${byLuminance(at)}>${byContrast(at)},"luminance","contrast"),"")`,
  },
  {
    key: 'atEnd',
    label: 'Luminance at the end',
    unit: 'cd/m²',
    width: 10,
    role: 'derived',
    format: '0.0',
    formula: (at) => `IF(ISNUMBER(${at('plain')}),${lux(at)}*${at('gain')}/PI(),"")`,
  },
  {
    key: 'reached',
    label: 'Contrast at the end',
    unit: 'to 1',
    width: 9,
    role: 'derived',
    format: '0.0',
    formula: (at) =>
      `IF(ISNUMBER(${at('plain')}),(${lux(at)}+${at('ambient')})/(IF(ISNUMBER(${at('own')}),${lux(at)}/${at('own')},0)+${at('ambient')}),"")`,
  },
];

type At = (key: string) => string;

/** Illuminance that the contrast and the luminance ask for; one of them may not be asked for. */
function byContrast(at: At): string {
  return `(${at('wanted')}-1)*${at('ambient')}/(1-IF(ISNUMBER(${at('own')}),${at('wanted')}/${at('own')},0))`;
}
function byLuminance(at: At): string {
  return `IF(ISNUMBER(${at('luminance')}),PI()*${at('luminance')}/${at('gain')},0)`;
}
/** Illuminance on the screen at the end of the planned use, in the daily mode. */
function lux(at: At): string {
  return `(${at('plain')}*${at('ageing')}*${at('mode')}/${at('area')})`;
}
function need(at: At): string {
  return `${at('area')}*MAX(${byContrast(at)},${byLuminance(at)})/(${at('ageing')}*${at('mode')})`;
}

/** A line without a room stays empty; one with gaps says what is missing; an impossible wish says so. */
function guard(at: At, value: string): string {
  const needed = ['area', 'ambient', 'wanted', 'gain', 'ageing', 'mode'].map(at).join(',');
  return `IF(COUNTA(${at('room')})=0,"",IF(COUNT(${needed})<6,"figures missing",IF(AND(ISNUMBER(${at('own')}),N(${at('own')})<=${at('wanted')}),"cannot be reached",${value})))`;
}

/** One line a room: what light output to ask for, in white and in colour, and the words to ask for it with. */
export function needPlan(setup: NeedSetup, id: string): Plan {
  const b = new PlanBuilder();
  b.wide('A1:L1', { role: 'title', value: 'Need: light output to ask for' }).height(1, 26);
  b.wide('A2:L2', { role: 'note', value: METHOD }).height(2, 54);
  b.wide('A3:L3', { role: 'answer', formula: `=${ANSWER}` }).height(3, 24);
  const rows = putRows(b, 4, NEED_COLUMNS, setup.rooms, setup.rooms.length + setup.spare);
  if (setup.rooms.length > 0) putChart(b, rows, setup.rooms.length);
  let row = putTotals(b, rows.next + 1);
  row = putWhatIf(b, row + 1, rows, setup.rooms.length > 0 ? 1 : undefined);
  if (setup.wording) row = putWords(b, row + 1, setup.wording);
  return b.build({
    kind: 'need',
    version: NEED_VERSION,
    id,
    title: 'Need',
    columns: rows.widths,
    print: { orientation: 'landscape', titleColumns: 'A:A', groups: ['M'] },
    start: `A${rows.first}`,
    freeze: { rows: 5, columns: 1 },
  });
}

/** The largest need and whose it is, above the rooms: their own figures stand at the right of what is typed. */
const ANSWER =
  'IF(RoomCount=0,"No room has all its figures yet","Largest need: "&ROUND(LargestWhite,0)&" lm white, "&ROUND(LargestColour,0)&" lm colour ("&INDEX(Rooms,MATCH(LargestWhite,RoomWhite,0))&"); "&RoomCount&" of "&COUNTA(Rooms)&IF(COUNTA(Rooms)=1," room"," rooms")&" with a figure")';

const METHOD =
  'White to ask for = image area × the larger of (C − 1)·E ÷ (1 − C ÷ C₀) and π·L ÷ gain, divided by what is left after ageing and in the daily mode. ' +
  'C wanted contrast, E ambient illuminance on the screen, C₀ the projector’s own contrast, L wanted luminance. Contrasts by task: 15 and 50 AVIXA; 7 and 80 from memory of ANSI/INFOCOMM 3M-2011. ' +
  'What is asked for is light output by nine points, as a standard finds it; over the whole image the same light is mostly some per cent less.';

/** What to ask for, room by room, beside the totals; lines filled in later are not in it. */
function putChart(b: PlanBuilder, rows: PlacedRows, count: number): void {
  const cells = (key: string) => rows.range(key).replace(/\d+$/, String(rows.first + count - 1));
  b.chart({
    title: 'Light output to ask for, lm',
    over: `M${rows.next + 1}:U${rows.next + 14}`,
    categories: cells('room'),
    series: [
      { name: 'white', values: cells('plain') },
      { name: 'colour', values: cells('colour') },
    ],
  });
}

function putTotals(b: PlanBuilder, row: number): number {
  const put = (r: number, label: string, name: string, formula: string) => {
    b.put(`A${r}`, { role: 'label', value: label });
    b.wide(`B${r}:C${r}`, { role: 'result', formula: `=${formula}`, format: '#,##0' });
    b.name(name, `B${r}`, label);
  };
  put(row, 'Rooms with a figure', 'RoomCount', 'COUNT(RoomWhite)');
  b.wide(`D${row}:L${row}`, {
    role: 'check',
    formula:
      '=IF(COUNTA(Rooms)=0,"","of "&COUNTA(Rooms)&IF(COUNTA(Rooms)=1," room"," rooms")&IF(RoomCount<COUNTA(Rooms),"; the largest figures leave out every room without one",""))',
  });
  put(row + 1, 'Largest white, lm', 'LargestWhite', 'IF(COUNT(RoomWhite)=0,"",MAX(RoomWhite))');
  put(row + 2, 'Largest colour, lm', 'LargestColour', 'IF(COUNT(RoomColour)=0,"",MAX(RoomColour))');
  return row + 3;
}

/** What one room would need in other light and on other images: ambient down, image size across. */
function putWhatIf(b: PlanBuilder, row: number, rows: PlacedRows, room: number | undefined): number {
  b.put(`A${row}`, { role: 'heading', value: 'What if' });
  b.wide(`B${row}:L${row}`, {
    role: 'heading',
    value: 'white to ask for, lm, if the room were lit or the image sized otherwise',
  });
  b.put(`A${row + 1}`, { role: 'label', value: 'Line of the room, from 1' });
  b.put(`B${row + 1}`, { role: 'input', ...(room === undefined ? {} : { value: room }) }).name(
    'WhatIfRoom',
    `B${row + 1}`,
    'What if: line of the room',
  );
  b.validate({
    range: `B${row + 1}`,
    rule: { type: 'number', min: 1, max: rows.last - rows.first + 1, whole: true },
    prompt: { title: 'What if', message: 'Which line of the table above, counted from 1.' },
    refusal: {
      title: 'What if',
      message: `A whole number from 1 to ${rows.last - rows.first + 1}.`,
      style: 'stop',
    },
  });
  const of = (key: string) => `INDEX(${rows.range(key)},WhatIfRoom)`;
  b.wide(`C${row + 1}:L${row + 1}`, {
    role: 'check',
    formula: `=IF(COUNT(WhatIfRoom)=0,"",${of('room')}&"")`,
  });
  const factors = [0.5, 0.75, 1, 1.25, 1.5];
  b.put(`A${row + 2}`, { role: 'label', value: 'ambient, lx \\ area, m²' });
  factors.forEach((factor, i) => {
    const column = 'BCDEF'[i]!;
    b.put(`${column}${row + 2}`, {
      role: 'derived',
      formula: `=IF(COUNT(${of('area')})=0,"",${factor}*${of('area')})`,
      format: '0.00',
    });
    b.put(`A${row + 3 + i}`, {
      role: 'derived',
      formula: `=IF(COUNT(${of('ambient')})=0,"",${factor}*${of('ambient')})`,
      format: '0.0',
    });
  });
  factors.forEach((_, r) => {
    factors.forEach((__, c) => {
      const [area, ambient] = [`${'BCDEF'[c]}$${row + 2}`, `$A${row + 3 + r}`];
      const contrast = `(${of('wanted')}-1)*${ambient}/(1-IF(COUNT(${of('own')})=0,0,${of('wanted')}/${of('own')}))`;
      const luminance = `IF(COUNT(${of('luminance')})=0,0,PI()*${of('luminance')}/${of('gain')})`;
      const cell = `${'BCDEF'[c]}${row + 3 + r}`;
      b.put(cell, {
        role: 'derived',
        formula: `=IF(COUNT(${area},${ambient},${of('plain')})<3,"",${area}*MAX(${contrast},${luminance})/(${of('ageing')}*${of('mode')}))`,
        format: '#,##0',
      });
    });
  });
  const grid = `B${row + 3}:F${row + 7}`;
  b.scale({ range: grid, low: '#F4F1E6', high: '#F2C879' });
  const [ambients, areas] = [`A${row + 3}:A${row + 7}`, `B${row + 2}:F${row + 2}`];
  const call = `LIGHT.WHATIF(${ambients},${areas},${of('wanted')},${of('luminance')},${of('own')},${of('gain')},${of('ageing')},${of('mode')})`;
  b.put(`A${row + 8}`, { role: 'label', value: 'Sum of the table, two ways' });
  // The function's table carries its head row and column, so that they are in its sum too.
  b.put(`B${row + 8}`, { role: 'derived' });
  b.put(`C${row + 8}`, {
    role: 'called',
    formula: `=IF(COUNT(${grid})<25,"",SUM(${call}))`,
    format: '#,##0',
  });
  b.wide(`D${row + 8}:E${row + 8}`, {
    role: 'twin',
    formula: `=IF(COUNT(${grid})<25,"",SUM(${grid})+SUM(${ambients})+SUM(${areas}))`,
    format: '#,##0',
  });
  b.put(`F${row + 8}`, { role: 'check', formula: `=${agreement(`C${row + 8}`, `D${row + 8}`)}` });
  b.name('WhatIf', grid, 'What if: white to ask for, lm').name(
    'WhatIfAgreement',
    `F${row + 8}`,
    'What if: whether function and plain table agree',
  );
  return row + 9;
}

/** Paragraphs for the tender, in cells that people edit. */
function putWords(b: PlanBuilder, row: number, wording: Readonly<Record<TenderPart, string>>): number {
  b.put(`A${row}`, { role: 'heading', value: 'Words for the tender' });
  b.wide(`B${row}:L${row}`, {
    role: 'heading',
    value: `a draft to edit; standard named: ${DEFAULT_STANDARD}. No maker is named`,
  });
  TENDER_PARTS.forEach((part, i) => {
    const r = row + 1 + i;
    b.put(`A${r}`, { role: 'label', value: part[0]!.toUpperCase() + part.slice(1) });
    b.wide(`B${r}:L${r}`, { role: 'words', value: wording[part] });
    b.height(r, 62);
    b.name(`Tender${part[0]!.toUpperCase()}${part.slice(1)}`, `B${r}`, `Words for the tender: ${part}`);
  });
  return row + 1 + TENDER_PARTS.length;
}
