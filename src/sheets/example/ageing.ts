import { DEFAULT_LEVEL } from '../../metrology/words';
import type { AgeingSetup, Measurement } from '../ageing/setup';
import { Scatter } from './light';
import { EXAMPLE_USE } from './network';

/** An invented unit in use: light when new, part lost per 1000 h, scatter of a measurement, and when it was measured. */
interface Series {
  readonly projector: string;
  readonly serial: string;
  readonly start: number;
  readonly loss: number;
  readonly scatter: number;
  readonly hours: readonly number[];
  readonly firstDay: string;
  readonly seed: number;
}

const SERIES: readonly Series[] = [
  {
    projector: 'Hillside, lamp',
    serial: 'RR-0417',
    start: 3150,
    loss: 0.072,
    scatter: 0.008,
    hours: [0, 500, 1050, 1500, 2100, 2600, 3150],
    firstDay: '2023-05-08',
    seed: 41,
  },
  {
    projector: 'Oldmarket, solid state',
    serial: 'RR-0533',
    start: 3280,
    loss: 0.017,
    scatter: 0.005,
    hours: [0, 900, 1800, 2700, 3600, 4500, 5400, 6300],
    firstDay: '2020-09-14',
    seed: 53,
  },
  {
    // Few measurements that scatter: what may be said of it is little, and the sheet says so.
    projector: 'Ferry Road, lamp',
    serial: 'RR-0602',
    start: 2950,
    loss: 0.05,
    scatter: 0.022,
    hours: [0, 400, 900, 1300],
    firstDay: '2025-01-20',
    seed: 62,
  },
];

/** Expanded uncertainty of such a measurement, as a part: what the run sheets of the example come to. */
const EXPANDED = 0.04;

/** @param needed light the largest room needs at the end, lm */
export function exampleSeries(needed: number): readonly AgeingSetup[] {
  return SERIES.map(({ projector, serial, start, loss, scatter, hours, firstDay, seed }) => {
    const random = new Scatter(seed);
    const rate = -Math.log(1 - loss) / 1000;
    return {
      projector,
      serial,
      mode: 'Standard',
      needed,
      hoursPerYear: EXAMPLE_USE.hoursPerYear,
      level: DEFAULT_LEVEL,
      points: hours.map((at): Measurement => {
        const output = Math.round(start * Math.exp(-rate * at) * random.around1(scatter));
        return {
          hours: at,
          output,
          expanded: Math.round(EXPANDED * output),
          date: dayAfter(firstDay, (at / EXAMPLE_USE.hoursPerYear) * 365.25),
          remark: at === 0 ? 'when new (invented)' : 'yearly look (invented)',
        };
      }),
    };
  });
}

function dayAfter(iso: string, days: number): string {
  return new Date(Date.parse(`${iso}T00:00:00Z`) + Math.round(days) * 86_400_000).toISOString().slice(0, 10);
}
