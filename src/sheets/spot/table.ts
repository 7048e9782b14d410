import { SERIAL_MAX } from '../../procurement/lot/serials';
import type { PlanBuilder } from '../builder';
import { type Column, type PlacedRows, putRows } from '../rows';
import { FORMAT } from '../run/layout';
import { validateRanges, validateReadings } from '../run/readings';
import type { SpotSetup } from './setup';

interface SpotLine {
  readonly unit: string;
  /** When it is measured, from 1. */
  readonly turn: number;
  readonly range: number;
}

const STEMS = ['White', 'Red', 'Green', 'Blue'] as const;
type Stem = (typeof STEMS)[number];

/** One line a unit: name, turn, three relative figures, four displays, four range factors, four illuminances. */
export function putTable(
  b: PlanBuilder,
  row: number,
  setup: SpotSetup,
  turns: readonly number[],
): PlacedRows {
  const lines = setup.units.map((unit, i) => ({ unit, turn: turns[i]!, range: setup.meter.range }));
  const placed = putRows(b, row, columns(), lines, lines.length);
  for (const stem of STEMS) {
    validateReadings(b, placed.range(stem), `${stem}, centre`);
    validateRanges(b, placed.range(`${stem}Range`));
  }
  return placed;
}

function columns(): Column<SpotLine>[] {
  return [
    {
      key: 'unit',
      label: 'Unit',
      unit: '',
      width: 24,
      role: 'input',
      format: FORMAT.text,
      value: ({ unit }) => unit,
      rule: { type: 'length', max: SERIAL_MAX },
      why: 'Name or serial number of the unit.',
      name: 'SpotUnits',
    },
    {
      key: 'turn',
      label: 'Turn',
      unit: '',
      width: 6,
      role: 'derived',
      value: ({ turn }) => turn,
      name: 'SpotTurns',
    },
    {
      key: 'whiteRelative',
      label: 'White, relative',
      unit: '',
      width: 9,
      role: 'result',
      format: FORMAT.percent,
      formula: (at) => `IF(COUNT(${at('WhiteNet')},WhiteReference)<2,"",${at('WhiteNet')}/WhiteReference)`,
      name: 'WhiteRelative',
    },
    {
      key: 'colourRelative',
      label: 'Colour, relative',
      unit: '',
      width: 9,
      role: 'result',
      format: FORMAT.percent,
      formula: (at) => `IF(COUNT(${colours(at)},ColourReference)<4,"",SUM(${colours(at)})/ColourReference)`,
      name: 'ColourRelative',
    },
    {
      key: 'ratio',
      label: 'Colour to white',
      unit: '',
      width: 9,
      role: 'result',
      format: FORMAT.ratio,
      formula: (at) =>
        `IF(COUNT(${colours(at)})<3,"",IF(COUNTIF(${at('WhiteNet')},">0")=0,"",SUM(${colours(at)})/${at('WhiteNet')}))`,
      name: 'ColourToWhite',
    },
    ...STEMS.map(
      (stem): Column<SpotLine> => ({
        key: stem,
        label: stem,
        unit: 'display',
        width: 8,
        role: 'reading',
        format: FORMAT.general,
        name: `${stem}Readings`,
      }),
    ),
    ...STEMS.map(
      (stem): Column<SpotLine> => ({
        key: `${stem}Range`,
        label: `${stem} range`,
        unit: '×',
        width: 7,
        role: 'factor',
        format: FORMAT.factor,
        value: ({ range }) => range,
        name: `${stem}Range`,
      }),
    ),
    ...STEMS.map(
      (stem): Column<SpotLine> => ({
        key: `${stem}Net`,
        label: `${stem} net`,
        unit: 'lx',
        width: 9,
        role: 'derived',
        format: FORMAT.lux,
        formula: (at) => net(stem, at),
        name: `${stem}Net`,
      }),
    ),
  ];
}

const colours = (at: (key: string) => string) => `${at('RedNet')},${at('GreenNet')},${at('BlueNet')}`;

/** Empty until the reading, its range factor and the ambient light are there. */
function net(stem: Stem, at: (key: string) => string): string {
  const [reading, range] = [at(stem), at(`${stem}Range`)];
  return `IF(COUNTIF(${reading},">0")*COUNTIF(${range},">0")*COUNT(AmbientLux)=0,"",(${reading}*${range}*LuxPerUnit*CalibrationFactor-AmbientLux)*${stem}Spectral)`;
}
