export { NewMeterCheck as MeterCheck } from '../metercheck/NewMeterCheck';
