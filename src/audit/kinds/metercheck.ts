import { defaultMeterCheck, METER_CHECK_VERSION, meterCheckPlan } from '../../sheets/metercheck';
import { keptPlans } from './cells';
import type { KindAudit } from './kind';
import { resultCells } from './results';

const kept = keptPlans();

export const METER_CHECK: KindAudit = {
  version: METER_CHECK_VERSION,
  plan: () => kept('', () => meterCheckPlan(defaultMeterCheck(), 'expected')),
  results: (view, plan) => resultCells(view, plan),
};
