import { addressOf, rectOf } from '../address';
import type { Identity } from '../plan';
import type { CellName } from './all';
import { RUN_NAMES } from './run';

/*
 * Cells of run sheets that bear no name and stand at a fixed distance from one that does, by the names they had in
 * former layouts: plain formulas, what a budget holds, the steps to an expanded uncertainty. So fewer than half the
 * names do, and who asks for `WhiteLightOutputPlain` still finds it.
 */

/** The first layout in which they have none, and the first whose grids stand side by side. */
const SINCE = 4;
const SIDE_BY_SIDE = 6;

/** Where cells stand as seen from the first cell of a named range; as many as that has unless said otherwise. */
interface Beside {
  readonly of: CellName;
  readonly down: number;
  readonly right: number;
  readonly size?: readonly [rows: number, columns: number];
  /** A single cell below all of the range. */
  readonly isBelow?: true;
  /** Only on sheets that have this name. */
  readonly where?: CellName;
  /** Only before grids stood side by side, or only since. */
  readonly layouts?: 'before' | 'since';
}

/** What stands beside a name that begins alike, by how the two end. */
const ENDS: readonly (readonly [end: string, of: string, down: number, right: number])[] = [
  ['U', 'Expanded', -3, 0],
  ['Dof', 'Expanded', -2, 0],
  ['K', 'Expanded', -1, 0],
  ['Limit', 'Verdict', -2, 0],
  ['Components', 'Parts', 0, -9],
  ['Nu', 'Parts', 0, -2],
  ['Shares', 'Parts', 0, 1],
];
/** Of a field that is sorted out of tiled patterns only the remarks below it have a name. */
const SORTED = /^(Red|Green|Blue)(Readings|Range|Net)$/;
const SORTED_RIGHT: Readonly<Record<string, number>> = { Readings: 0, Range: 4, Net: 8 };
/** Side by side, the remarks stand below one another, and the three are seen from the first row of them. */
const SORTED_DOWN: Readonly<Record<string, number>> = { Readings: -10, Range: -3, Net: -6 };
const SORTED_STEMS = ['Red', 'Green', 'Blue'];
const TWIN = 'Plain';

const known = new Set<string>(RUN_NAMES);
const isName = (name: string): name is CellName => known.has(name);

function besidesNamed(name: CellName): Beside[] {
  const [, stem = '', end = ''] = SORTED.exec(name) ?? [];
  const remarks = `${stem}Remarks`;
  const among = SORTED_STEMS.indexOf(stem);
  const whole = { size: [3, 3], where: 'PatternA' } as const;
  const sorted: Beside[] = isName(remarks)
    ? [
        { of: remarks, down: -3, right: SORTED_RIGHT[end]!, ...whole, layouts: 'before' },
        { of: remarks, down: SORTED_DOWN[end]! - among, right: 4 * among, ...whole, layouts: 'since' },
      ]
    : [];
  return [...byEnd(name), ...netOf(name), ...sorted];
}

/** Net illuminances stood at the right of their readings; now they stand above their range factors, if those are below. */
function netOf(name: CellName): Beside[] {
  const stem = /^(White|Red|Green|Blue|Black|Corner)Net$/.exec(name)?.[1];
  const [readings, ranges] = [`${stem}Readings`, `${stem}Range`];
  if (stem === undefined || !isName(readings) || !isName(ranges)) return [];
  const right: Beside = { of: readings, down: 0, right: 8 };
  if (stem === 'Corner') return [right];
  return [
    { ...right, layouts: 'before' },
    { of: ranges, down: -3, right: 0, layouts: 'since' },
  ];
}

function byEnd(name: CellName): Beside[] {
  if (name === 'LuxPerUnit') return [{ of: 'ImageArea', down: 0, right: 8 }];
  if (name === 'CauseLabels') return [{ of: 'CauseStatus', down: 0, right: -6 }];
  if (name.endsWith(TWIN)) {
    const own = name.slice(0, -TWIN.length);
    if (!isName(own)) return [];
    const { of, down } = byEnd(own)[0] ?? { of: own, down: 0 };
    return [{ of, down, right: 2 }];
  }
  const trusted = name.replace(/Trust$/, 'Parts');
  if (trusted !== name && isName(trusted)) {
    // Of light outputs it is said since a layout that has this name, too.
    const since = /^(White|Colour)/.test(name) ? ({ where: 'MeterF2' } as const) : {};
    return [{ of: trusted, down: 0, right: -9, isBelow: true, ...since }];
  }
  return ENDS.flatMap(([own, base, down, right]) => {
    const of = `${name.slice(0, -own.length)}${base}`;
    return name.endsWith(own) && isName(of) ? [{ of, down, right }] : [];
  });
}

const BESIDES = new Map<CellName, readonly Beside[]>(RUN_NAMES.map((name) => [name, besidesNamed(name)]));

/** Whether whatever a plan of the sheet's kind calls by a name has it on the sheet. */
export function hasAllNames({ kind, version }: Pick<Identity, 'kind' | 'version'>): boolean {
  return kind !== 'run' || version < SINCE;
}

/** The names that tell where a nameless cell stands, for those who look up names one by one. */
export function neighboursOf(name: CellName): CellName[] {
  return (BESIDES.get(name) ?? []).flatMap(({ of, where }) => (where ? [of, where] : [of]));
}

/**
 * Addresses of what stands beside the names of a sheet and bears none itself.
 * @param addresses of the sheet's names
 */
export function besidesOf(
  identity: Pick<Identity, 'kind' | 'version'>,
  addresses: ReadonlyMap<string, string>,
): Map<CellName, string> {
  const found = new Map<CellName, string>();
  if (hasAllNames(identity)) return found;
  const own = identity.version < SIDE_BY_SIDE ? 'before' : 'since';
  for (const [name, besides] of BESIDES) {
    if (addresses.has(name)) continue;
    const beside = besides.find(
      ({ of, where = of, layouts = own }) => layouts === own && addresses.has(of) && addresses.has(where),
    );
    const address = beside && placed(beside, addresses.get(beside.of)!);
    if (address !== undefined) found.set(name, address);
  }
  return found;
}

function placed({ down, right, size, isBelow }: Beside, address: string): string | undefined {
  const { row, column, rows, columns } = rectOf(address);
  const [high, wide] = isBelow ? [1, 1] : (size ?? [rows, columns]);
  const [first, left] = [row + down + (isBelow ? rows : 0), column + right];
  // A name that a person moved may lie where nothing can stand beside it.
  if (first < 0 || left < 0) return undefined;
  return addressOf({ row: first, column: left, rows: high, columns: wide });
}
