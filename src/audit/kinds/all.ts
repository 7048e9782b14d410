import type { SheetKind } from '../../sheets/plan';
import { ACCEPTANCE } from './acceptance';
import { AGEING } from './ageing';
import { BATCH } from './batch';
import { CERTIFICATE } from './certificate';
import { COMPARISON } from './comparison';
import type { KindAudit } from './kind';
import { METER_CHECK } from './metercheck';
import { NEED } from './need';
import { OFFERS } from './offers';
import { OVERVIEW } from './overview';
import { RUN } from './run';
import { SPOT } from './spot';

/** What is known of each kind of sheet. */
export const KINDS: Readonly<Partial<Record<SheetKind, KindAudit>>> = {
  run: RUN,
  need: NEED,
  offers: OFFERS,
  comparison: COMPARISON,
  spot: SPOT,
  ageing: AGEING,
  metercheck: METER_CHECK,
  acceptance: ACCEPTANCE,
  certificate: CERTIFICATE,
  overview: OVERVIEW,
  batch: BATCH,
};
