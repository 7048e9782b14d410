import { setupOf } from '../../src/audit/setupof';
import { viewOf } from '../../src/audit/view';
import { type Host, HostError } from '../../src/excel/host';
import type { FieldId } from './field';
import { textsOfSetup } from './fromsetup';

/** The set-up of a run sheet as the form's texts. */
export async function textsOfRun(host: Host, sheet: string): Promise<Partial<Record<FieldId, string>>> {
  const [found] = (await host.book({ sheets: [sheet] })).sheets;
  if (!found) throw new HostError('missing', `“${sheet}” is not there any more.`, 'Choose another run.');
  return textsOfSetup(setupOf(viewOf(found)));
}
