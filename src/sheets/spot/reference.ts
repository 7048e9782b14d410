import { cellsOf } from '../address';
import type { PlanBuilder } from '../builder';
import type { PlacedRows } from '../rows';
import { FORMAT } from '../run/layout';

/** What the relative figures are divided by: the first unit's light at the centre, or the brightest unit's. */
export function putReference(b: PlanBuilder, row: number, rows: PlacedRows): number {
  const cells = (key: string) => cellsOf(rows.range(key));
  const white = cells('WhiteNet');
  const sums = cells('RedNet').map((red, i) => {
    const all = [red, cells('GreenNet')[i]!, cells('BlueNet')[i]!].join(',');
    return `IF(COUNT(${all})<3,0,SUM(${all}))`;
  });
  const put = (r: number, label: string, name: string, first: string, best: string, unit: string) => {
    b.wide(`A${r}:J${r}`, { role: 'label', value: label });
    b.put(`K${r}`, {
      role: 'derived',
      // A reference of 0 or less is none: it would make the others endless.
      formula: `=IF(SpotReference="first",IF(${first}>0,${first},""),IF(${best}>0,${best},""))`,
      format: FORMAT.lux,
    });
    b.put(`L${r}`, { role: 'unit', value: unit });
    b.name(name, `K${r}`, label);
  };
  put(
    row,
    'White that counts as 100 %',
    'WhiteReference',
    `N(${white[0]})`,
    `MAX(${rows.range('WhiteNet')})`,
    'lx',
  );
  put(
    row + 1,
    'Colour (red + green + blue) that counts as 100 %',
    'ColourReference',
    sums[0]!,
    `MAX(${sums.join(',')})`,
    'lx',
  );
  return row + 2;
}
