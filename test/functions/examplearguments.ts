/*
 * What stands in the cells that examples of functions name. Readings are invented; they only have to be such that the
 * function has a result: its values are tested elsewhere.
 */

const NINE = [
  [611, 655, 604],
  [702, 741, 699],
  [590, 640, 598],
];
const part = (of: number) => NINE.map((row) => row.map((lux) => Math.round(lux * of)));
const BOARD = Array.from({ length: 4 }, (_, row) =>
  Array.from({ length: 4 }, (_, column) => ((row + column) % 2 === 0 ? 300 : 3)),
);
const column = (...values: readonly unknown[]) => values.map((value) => [value]);

/** By the names that run sheets give their cells. */
const NAMED: Readonly<Record<string, unknown>> = {
  WhiteReadings: NINE,
  RedReadings: part(0.2),
  GreenReadings: part(0.7),
  BlueReadings: part(0.1),
  BlackReadings: part(0.002),
  CornerReadings: [
    [560, 571],
    [548, 566],
  ],
  BoardReadings: BOARD,
  PatternA: part(0.3),
  PatternB: part(0.31),
  PatternC: part(0.32),
  ImageArea: 1.44,
  WhiteLightOutput: 935,
  ColourLightOutput: 930,
};

const DOFS = column(...Array.from({ length: 11 }, () => '∞'));
const CONTRIBUTIONS = column(...Array.from({ length: 11 }, (_, i) => 1 + i));
const HOURS = column(0, 500, 1000, 1500, 2000, 2500);
const LIGHT = column(3100, 3050, 3010, 2950, 2910, 2860);
/** Of runs in a comparison: components by runs. */
const PARTS = Array.from({ length: 11 }, (_, i) => [i + 1, i + 2, i + 3]);

/** By function, in the order of its arguments, where an example names addresses. */
const ADDRESSED: Readonly<Record<string, readonly unknown[]>> = {
  AGEINGRATE: [HOURS, LIGHT],
  AGEINGHOURS: [HOURS, LIGHT],
  AGEINGHOURSTO: [HOURS, LIGHT],
  AGEINGTABLE: [HOURS, LIGHT],
  BATCH: [
    column('A-1', 'A-2'),
    [NINE.flat(), part(0.9).flat()],
    column(1, 1),
    2,
    1.44,
    column(1),
    column(900),
    column(...Array.from({ length: 6 }, () => 0.01)),
  ],
  BATCHCENTRE: [
    column('A-1', 'A-2'),
    column(741, 690),
    column(1, 1),
    2,
    column(740, 950, null, null),
    column(1),
    column(900),
    column(...Array.from({ length: 6 }, () => 0.01)),
  ],
  REPEATABILITY: [column(702, 705, 699, 701, 704, 700, 703, 702, 698, 706)],
  ERRORLIMIT: [column(702, 705, 699, 701, 704), column(700, 701, 702, 700, 699)],
  DRAWSAMPLE: [column(...Array.from({ length: 60 }, (_, i) => `A-${i + 1}`))],
  WHATIF: [column(20, 40, 60, 80), [[1, 2, 3]]],
  BUDGET: [
    column('meter', 'digits', 'tape'),
    column(0.03, 0.01, 0.005),
    column('rectangular', 'rectangular', 'rectangular'),
    column(900, 900, 900),
    DOFS.slice(0, 3),
  ],
  COMBINEDU: [CONTRIBUTIONS],
  EFFECTIVEDOF: [CONTRIBUTIONS, DOFS],
  EXPANDEDU: [CONTRIBUTIONS, DOFS],
  DIFFERENCES: [
    PARTS,
    PARTS.map((row) => row.map(() => '∞')),
    [[1, 1, 2]],
    [[1, 2, 3]],
    PARTS.map((row) => row.map(() => 0)),
  ],
};

/** Arguments of an example: its literals, and for a name or an address what stands there. Quoted commas do not separate. */
export function exampleArguments(id: string, list: string): unknown[] {
  const parts = list.match(/"[^"]*"|[^,]+|(?<=,|^)(?=,|$)/g) ?? [];
  return parts.map((text, i) => {
    if (text === '') return null;
    if (/^"[^"]*"$/.test(text)) return text.slice(1, -1);
    if (!Number.isNaN(Number(text))) return Number(text);
    const known = NAMED[text] ?? ADDRESSED[id]?.[i];
    if (known === undefined) throw new Error(`Nothing stands at ${text} for the example of ${id}`);
    return known;
  });
}
