import { LUMENS } from '../../photometry/bounds';
import { dayNumber } from '../days';
import type { Column } from '../rows';
import { FORMAT } from '../run/layout';
import { FIRST_DATE, TEXT_MAX } from '../setup/fields';
import type { Measurement } from './setup';

type At = (key: string) => string;
const used = (at: At, value: string) => `IF(${at('state')}="used",${value},"")`;
/** The fit's own columns wait until the whole sheet can be computed. */
const fitted = (at: At, value: string) => `IF(AND(${at('state')}="used",AgeingState="complete"),${value},"")`;

/** One line a measurement; `first` is the row of the first one, for the order of hours. */
export function measurementColumns(first: number): readonly Column<Measurement>[] {
  return [
    {
      key: 'remark',
      label: 'Measurement',
      unit: '',
      width: 30,
      role: 'input',
      format: '@',
      value: ({ remark }) => remark,
      rule: { type: 'length', max: TEXT_MAX },
      why: 'Where it is from: the run sheet, or what should be known of it.',
      name: 'MeasurementRemark',
    },
    {
      key: 'hours',
      label: 'Hours',
      unit: 'h of source',
      width: 12,
      role: 'input',
      format: '#,##0',
      value: ({ hours }) => hours,
      rule: { type: 'number', min: 0, max: 1_000_000 },
      why: 'What the projector’s own counter says of its light source. Type 0 for a new one, in the first line.',
      name: 'MeasuredHours',
    },
    {
      key: 'output',
      label: 'Light output',
      unit: 'lm',
      width: 16,
      role: 'input',
      format: '#,##0.0',
      value: ({ output }) => output,
      rule: { type: 'number', ...LUMENS },
      why: 'White light output in one and the same mode, measured in the same way each time.',
      name: 'MeasuredOutput',
    },
    {
      key: 'expanded',
      label: 'U of it',
      unit: 'lm',
      width: 16,
      role: 'input',
      format: '#,##0.0',
      value: ({ expanded }) => expanded,
      rule: { type: 'number', min: 0, max: 1_000_000 },
      why: 'Expanded uncertainty if known. It is kept and shown; the fit does not weigh by it.',
      name: 'MeasuredU',
    },
    {
      key: 'date',
      label: 'Measured on',
      unit: '',
      width: 12,
      role: 'input',
      format: FORMAT.date,
      value: ({ date }) => (date ? dayNumber(date) : undefined),
      rule: { type: 'date', min: FIRST_DATE },
      why: 'Day of the measurement; the next one is planned from the last.',
      name: 'MeasuredOn',
    },
    {
      key: 'state',
      label: 'This line',
      unit: '',
      width: 14,
      role: 'check',
      formula: (at) => {
        const [hours, output] = [at('hours'), at('output')];
        const begun = `COUNTIF(B$${first}:${hours},">0")>0`;
        return `IF(COUNTA(${hours},${output})=0,"",IF(COUNT(${output})=0,"not measured",IF(${output}<=0,"check: not above 0",IF(COUNT(${hours})=0,"check: hours missing",IF(${hours}<0,"check: below 0 h",IF(AND(${hours}=0,${begun}),"check: 0 h comes first","used"))))))`;
      },
      name: 'MeasurementState',
    },
    {
      key: 'log',
      label: 'Logarithm',
      unit: 'of Φ ÷ largest',
      width: 12,
      role: 'derived',
      format: '0.00000',
      formula: (at) => used(at, `LN(${at('output')}/MAX(MeasuredOutput))`),
      name: 'LogOutput',
    },
    {
      key: 'fit',
      label: 'By the fit',
      unit: 'lm',
      width: 12,
      role: 'derived',
      format: '#,##0.0',
      formula: (at) => fitted(at, `MAX(MeasuredOutput)*EXP(MeanLog+LogSlope*${at('from')})`),
      name: 'FittedOutput',
    },
    {
      key: 'off',
      label: 'Off the fit',
      unit: '',
      width: 12,
      role: 'derived',
      format: '+0.0 %;-0.0 %;0.0 %',
      formula: (at) => fitted(at, `${at('output')}/${at('fit')}-1`),
    },
    {
      key: 'from',
      label: 'Off mean',
      unit: 'h',
      width: 12,
      role: 'derived',
      format: '0.0',
      formula: (at) => fitted(at, `${at('hours')}-MeanHours`),
    },
    {
      key: 'square',
      label: 'Squared',
      unit: '',
      width: 12,
      role: 'derived',
      format: '0.0',
      formula: (at) => fitted(at, `${at('from')}*${at('from')}`),
      name: 'HoursSquared',
    },
    {
      key: 'product',
      label: 'Times ln',
      unit: '',
      width: 12,
      role: 'derived',
      format: '0.000',
      formula: (at) => fitted(at, `${at('from')}*(${at('log')}-MeanLog)`),
      name: 'HoursTimesLog',
    },
    {
      key: 'rest',
      label: 'Squared rest',
      unit: '',
      width: 12,
      role: 'derived',
      format: '0.0E+00',
      formula: (at) => fitted(at, `(${at('log')}-MeanLog-LogSlope*${at('from')})^2`),
      name: 'RestSquared',
    },
    {
      key: 'counted',
      label: 'Hours used',
      unit: 'h',
      width: 12,
      role: 'derived',
      format: '#,##0',
      formula: (at) => used(at, at('hours')),
      name: 'UsedHours',
    },
    {
      key: 'begin',
      label: 'First light',
      unit: 'lm',
      width: 12,
      role: 'derived',
      format: '#,##0.0',
      formula: (at) => fitted(at, `IF(${at('hours')}=FirstHours,${at('output')},"")`),
      name: 'FirstOutputs',
    },
    {
      key: 'last',
      label: 'Last day',
      unit: '',
      width: 12,
      role: 'derived',
      format: FORMAT.date,
      formula: (at) =>
        fitted(at, `IF(AND(${at('hours')}=LastHours,COUNT(${at('date')})=1),${at('date')},"")`),
      name: 'LastDays',
    },
  ];
}
