import {
  OBLIQUE_ACROSS,
  OBLIQUE_DOWN,
  OBLIQUE_PER_F2,
  SENSOR_HEIGHT,
  SENSOR_HEIGHT_HALF,
  THROW_HALF,
  THROW_OF_WIDTH,
} from '../../metrology/run/defaults';
import type { DerivedLine } from './derived';
import { FORMAT } from './layout';

/** Below this part of the image's width the light falls so obliquely that a meter's cosine error matters (estimate). */
const SHORT_THROW = 0.6;

const height = `IF(ISNUMBER(SensorHeight),SensorHeight/1000,${SENSOR_HEIGHT})`;
const doubt = `IF(ISNUMBER(SensorHeight),${SENSOR_HEIGHT_HALF},${SENSOR_HEIGHT})`;
const near = `2*${height}/(${THROW_OF_WIDTH}*ImageWidth)`;

/** The doubt of where the sensor stands, as the model has it: the first derivatives of 1 ÷ (throw − height)². */
export const SENSOR_LINE: DerivedLine = {
  label: 'Sensor in front of the screen ±',
  name: 'SensorHalf',
  formula: `=IF(ISNUMBER(ThrowDistance),2*(${doubt}+${height}*${THROW_HALF})/ThrowDistance,${near})`,
  format: FORMAT.percent,
  unit: 'of output',
  words: `=IF(ISNUMBER(ThrowDistance),IF(ThrowDistance<${SHORT_THROW}*ImageWidth,"so short a throw lights the corners obliquely: see the row below, and state the meter’s f2",IF(ISNUMBER(SensorHeight),"corrected for; the doubt of both distances","sensor not stated: up to so much too large")),"assumed: lens as near as the image is wide; readings are up to so much too large. Type both distances")`,
};

// Fifteen digits, as spreadsheets keep them.
const across = OBLIQUE_ACROSS.toPrecision(15);
const aside = `((${across}*ImageWidth)^2+(${OBLIQUE_DOWN}*ImageHeight)^2)`;
const lens = `IF(ISNUMBER(ThrowDistance),ThrowDistance,${THROW_OF_WIDTH}*ImageWidth)`;

/** What the cosine error of the meter makes of light from the side, at the nine points in the mean. */
export const OBLIQUE_LINE: DerivedLine = {
  label: 'Oblique light on the sensor ±',
  name: 'ObliqueHalf',
  formula: `=MeterF2Used*${OBLIQUE_PER_F2}*SQRT(${aside}/(${aside}+(${lens})^2))`,
  format: FORMAT.percent,
  unit: 'of output',
  words: `f2 × ${OBLIQUE_PER_F2} × sine of the mean angle; the lens level with the image’s edge, as far as stated or else as the image is wide (estimate)`,
};
