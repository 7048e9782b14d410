import {
  OBLIQUE_ACROSS,
  OBLIQUE_DOWN,
  OBLIQUE_PER_F2,
  SENSOR_HEIGHT,
  SENSOR_HEIGHT_HALF,
  THROW_HALF,
  THROW_OF_WIDTH,
} from '../../metrology/run/defaults';
import type { PlanBuilder } from '../builder';
import { putDerived } from './derived';
import { FORMAT } from './layout';

/** Below this part of the image's width the light falls so obliquely that a meter's cosine error matters (estimate). */
const SHORT_THROW = 0.6;

/** The doubt of where the sensor stands, as the model has it: the first derivatives of 1 ÷ (throw − height)². */
export function putSensor(b: PlanBuilder, row: number): void {
  const height = `IF(ISNUMBER(SensorHeight),SensorHeight/1000,${SENSOR_HEIGHT})`;
  const doubt = `IF(ISNUMBER(SensorHeight),${SENSOR_HEIGHT_HALF},${SENSOR_HEIGHT})`;
  const near = `2*${height}/(${THROW_OF_WIDTH}*ImageWidth)`;
  b.height(row, 26);
  putDerived(
    b,
    row,
    'Sensor in front of the screen ±',
    'SensorHalf',
    `=IF(ISNUMBER(ThrowDistance),2*(${doubt}+${height}*${THROW_HALF})/ThrowDistance,${near})`,
    FORMAT.percent,
    'of output',
    `=IF(ISNUMBER(ThrowDistance),IF(ThrowDistance<${SHORT_THROW}*ImageWidth,"so short a throw lights the corners obliquely: see the row below, and state the meter’s f2",IF(ISNUMBER(SensorHeight),"corrected for; the doubt of both distances","sensor not stated: up to so much too large")),"assumed: lens as near as the image is wide; readings are up to so much too large. Type both distances")`,
  );
}

/** What the cosine error of the meter makes of light from the side, at the nine points in the mean. */
export function putOblique(b: PlanBuilder, row: number): void {
  // Fifteen digits, as spreadsheets keep them.
  const across = OBLIQUE_ACROSS.toPrecision(15);
  const aside = `((${across}*ImageWidth)^2+(${OBLIQUE_DOWN}*ImageHeight)^2)`;
  const lens = `IF(ISNUMBER(ThrowDistance),ThrowDistance,${THROW_OF_WIDTH}*ImageWidth)`;
  b.height(row, 26);
  putDerived(
    b,
    row,
    'Oblique light on the sensor ±',
    'ObliqueHalf',
    `=MeterF2Used*${OBLIQUE_PER_F2}*SQRT(${aside}/(${aside}+(${lens})^2))`,
    FORMAT.percent,
    'of output',
    `f2 × ${OBLIQUE_PER_F2} × sine of the mean angle; the lens level with the image’s edge, as far as stated or else as the image is wide (estimate)`,
  );
}
