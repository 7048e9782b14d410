import { NINE_POINTS } from '../../photometry/points';
import { BATCH_FIELDS } from '../../procurement/batch/columns';
import { batchPlan } from '../batch';
import { defaultBatchSetup } from '../batch/setup';
import { filled } from '../filled';
import type { Plan } from '../plan';
import { type InventedUnit, illuminance, Scatter } from './light';
import { display, EXAMPLE_METER, seenBy } from './meter';
import { EXAMPLE_ROOMS } from './network';
import { exampleSetup, TEST_AREA, TEST_ROOM } from './runs';

/** Part by which readings scatter when the meter is put to the same place again. */
const PLACE = 0.004;
/** Lines left for units that are measured later. */
const SPARE = 4;

/** The rest of the sample, one row a unit: nine points in white, red, green and blue, read once in one range. */
export function exampleBatch(units: readonly InventedUnit[], id: string): Plan {
  const { uncertainty, rated, image, measuredBy, mode, date } = exampleSetup('');
  const plan = batchPlan(
    {
      ...defaultBatchSetup(),
      title: 'rest of the sample',
      projector: 'Type of Bidder North (invented)',
      mode,
      measuredBy,
      meter: EXAMPLE_METER,
      image,
      rated,
      readings: 'nine points in each colour',
      ambient: 'once',
      uncertainty,
      units: units.map(({ serial }, i) => ({
        serial,
        place: EXAMPLE_ROOMS[i % EXAMPLE_ROOMS.length]!.room,
        hours: 1,
        date,
      })),
      lines: units.length + SPARE,
    },
    id,
  );
  const rows = units.map((unit) => {
    const scatter = new Scatter(unit.seed);
    return BATCH_FIELDS.flatMap((field) => {
      return NINE_POINTS.map((point) => {
        const own = illuminance(unit, field, TEST_AREA, point) * scatter.around1(PLACE);
        const lux = seenBy(EXAMPLE_METER, field, 1, own, TEST_ROOM);
        return display(lux, EXAMPLE_METER.range, EXAMPLE_METER.calibration);
      });
    });
  });
  const spare = Array.from({ length: SPARE }, () => rows[0]!.map(() => undefined));
  return filled(plan, {
    Readings: [...rows, ...spare],
    AmbientReadings: [[Math.round(10 * TEST_ROOM)]],
    AmbientRange: [[0.1]],
  });
}
