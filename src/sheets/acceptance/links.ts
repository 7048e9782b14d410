import { cellName, rectOf } from '../address';
import type { CellValue } from '../book';
import { type LinkedSheet, linkTo, linkToAll } from '../link';

/** The figures of a unit line, by the name of its column, and the run's result whose plain formula each is linked to. */
export const FIGURES = [
  ['UnitWhite', 'WhiteLightOutput'],
  ['UnitWhiteU', 'WhiteExpanded'],
  ['UnitColour', 'ColourLightOutput'],
  ['UnitColourU', 'ColourExpanded'],
] as const;
type FigureName = (typeof FIGURES)[number][0];

/** Column that says where a line's figures are from. */
const SOURCE = 'UnitSource';

/** Formulas of one line with their "=": figures that are linked, and what the line says of their source. */
export type LinkedLine = Readonly<Partial<Record<FigureName | typeof SOURCE, string>>>;

/** Cells of a unit line that a link refers to. */
export interface LineCells {
  readonly serial: string;
  readonly white: string;
}

const trimmed = (cell: string) => `TRIM(${cell}&"")`;

/**
 * A line linked to a run sheet. The link holds only as long as the run bears the line's serial number, letter by
 * letter: if one of them is changed, the line waits instead of showing another unit's light.
 */
export function lineOfRun(run: LinkedSheet, { serial, white }: LineCells): LinkedLine {
  const own = linkTo(run, 'SerialNumber');
  const output = linkTo(run, 'WhiteLightOutputPlain');
  if (!own || !output) return {};
  const isOurs = `EXACT(${trimmed(own)},${trimmed(serial)})`;
  const figures = FIGURES.flatMap(([column, name]) => {
    const link = linkTo(run, `${name}Plain`);
    // A deleted sheet leaves #REF! behind: the line then waits like any other.
    return link ? [[column, `=IFERROR(IF(${isOurs},IF(COUNT(${link})=1,${link},""),""),"")`] as const] : [];
  });
  const [projector, mode] = [linkTo(run, 'Projector'), linkTo(run, 'PictureMode')];
  const label = [projector, mode].filter(Boolean).join('&", "&') || '""';
  const said = `IF(NOT(${isOurs}),"the linked run sheet bears another serial number",IF(COUNT(${output})=0,"run sheet without a result: "&${label},IF(${white}=${output},"run sheet: "&${label},"typed here; its run sheet says otherwise")))`;
  return {
    ...Object.fromEntries(figures),
    [SOURCE]: `=IFERROR(${said},"the linked run sheet is gone")`,
  };
}

/** The figures of a unit line, and the batch's column each is looked up in. */
const BATCH_FIGURES = [
  ['UnitWhite', 'UnitWhite'],
  ['UnitWhiteU', 'UnitWhiteU'],
  ['UnitColour', 'UnitColour'],
  ['UnitColourU', 'UnitColourU'],
] as const;

/** Names of a batch sheet that links need: who the lines are and what they came to. */
export const BATCH_NAMES = ['Serials', ...BATCH_FIGURES.map(([, name]) => name)] as const;

/** A serial number as MATCH must be asked for it: `*`, `?` and `~` of a serial stand for themselves. */
const asked = (cell: string) =>
  `SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(${trimmed(cell)},"~","~~"),"*","~*"),"?","~?")`;

/** A line linked to a batch sheet: its serial number is looked up there, so lines of the batch may be moved about. */
export function lineOfBatch(batch: LinkedSheet, { serial, white }: LineCells): LinkedLine {
  const serials = linkToAll(batch, 'Serials');
  const output = linkToAll(batch, 'UnitWhite');
  if (!serials || !output) return {};
  const line = `MATCH(${asked(serial)},${serials},0)`;
  const isOurs = `EXACT(${trimmed(`INDEX(${serials},${line})`)},${trimmed(serial)})`;
  const figures = BATCH_FIGURES.flatMap(([column, name]) => {
    const cells = linkToAll(batch, name);
    const found = `INDEX(${cells},${line})`;
    return cells
      ? [[column, `=IFERROR(IF(${isOurs},IF(COUNT(${found})=1,${found},""),""),"")`] as const]
      : [];
  });
  const found = `INDEX(${output},${line})`;
  const said = `IF(NOT(${isOurs}),"not in the batch",IF(COUNTIF(${serials},${asked(serial)})>1,"in the batch more than once: the first counts",IF(COUNT(${found})=0,"batch line "&${line}&" without a result",IF(${white}=${found},"batch, line "&${line},"typed here; its batch says otherwise"))))`;
  const gone = `IF(ISERROR(ROWS(${serials})),"the linked batch is gone","not in the batch")`;
  return { ...Object.fromEntries(figures), [SOURCE]: `=IFERROR(${said},${gone})` };
}

/** Whether what a line says of its source tells of a link to a batch sheet that is there. */
export function isOfBatch(source: CellValue): boolean {
  return /^(batch|in the batch|typed here; its batch)\b/.test(String(source));
}

/** A lot's sheet as links are put into it: addresses of its names. */
export type LotAddresses = Readonly<Record<string, string>>;

/** A cell of the lot's sheet and the formula that goes there. */
export interface LinkedCell {
  readonly at: string;
  readonly formula: string;
}

/** The cells that change when lines of a lot are linked; lines count from 0. */
export function linkedCells(
  addresses: LotAddresses,
  lines: ReadonlyMap<number, (cells: LineCells) => LinkedLine>,
): LinkedCell[] {
  const cell = (name: string, line: number) => {
    const { row, column } = rectOf(addresses[name]!);
    return cellName(row + line, column);
  };
  return [...lines].flatMap(([line, linked]) =>
    Object.entries(linked({ serial: cell('Serials', line), white: cell('UnitWhite', line) })).map(
      ([name, formula]) => ({ at: cell(name, line), formula }),
    ),
  );
}
