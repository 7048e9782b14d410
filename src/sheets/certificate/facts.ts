import type { PlanBuilder } from '../builder';
import { linkTo } from '../link';
import { FORMAT } from '../run/layout';
import type { CertifiedRun } from './run';

type Fact = readonly [label: string, name: string, format?: string];

const LEFT: readonly Fact[] = [
  ['Projector', 'Projector'],
  ['Serial number', 'SerialNumber'],
  ['Picture mode', 'PictureMode'],
  ['Place', 'Place'],
  ['Measured by', 'MeasuredBy'],
  ['Measured on', 'MeasuredOn', FORMAT.date],
  ['Kind of light source', 'LightSource'],
  ['Signal and standard', 'SignalStandard'],
];
const RIGHT: readonly Fact[] = [
  ['Meter', 'Meter'],
  ['Calibration certificate', 'MeterCertificate'],
  ['Meter calibrated on', 'CalibratedOn', FORMAT.date],
  ['Calibration due on', 'CalibrationDue', FORMAT.date],
  ['Calibration factor', 'CalibrationFactor'],
  ['Image width, m', 'ImageWidth', '0.000'],
  ['Image height, m', 'ImageHeight', '0.000'],
  ['Image area, m²', 'ImageArea', '0.0000'],
];

/** Unit on the left, conditions on the right, all linked. Returns the first row below. */
export function putFacts(b: PlanBuilder, row: number, run: CertifiedRun): number {
  b.wide(`A${row}:C${row}`, { role: 'heading', value: 'Unit' });
  b.wide(`D${row}:F${row}`, { role: 'heading', value: 'Conditions' });
  const put = (label: string, cells: string, [words, name, format]: Fact) => {
    b.put(label, { role: 'label', value: words });
    const link = linkTo(run, name);
    b.wide(cells, {
      role: 'check',
      // A link to an empty cell would show 0.
      ...(link ? { formula: `=IF(${link}="","not stated",${link})` } : { value: 'not stated' }),
      ...(format ? { format } : {}),
    });
    b.name(name, cells.split(':')[0]!, `${words}, linked from the run sheet`);
  };
  LEFT.forEach((fact, i) => {
    put(`A${row + 1 + i}`, `B${row + 1 + i}:C${row + 1 + i}`, fact);
  });
  RIGHT.forEach((fact, i) => {
    put(`D${row + 1 + i}`, `E${row + 1 + i}:F${row + 1 + i}`, fact);
  });
  return row + 1 + LEFT.length;
}
