import type { Plan } from '../../src/sheets/plan';
import type { Store } from '../store/type';

/**
 * Builds a sheet from a form and shows it.
 *
 * @param what "need sheet", for what is said meanwhile and of what goes wrong
 * @param more what is said behind "Built the sheet …" once it is there
 * @returns the sheet's name; undefined where it came to nothing, which the pane says by itself
 */
export async function buildSheet(
  { host, workbook, troubles, front }: Store,
  what: string,
  plan: () => Plan | Promise<Plan>,
  more: () => string = () => '.',
): Promise<string | undefined> {
  const attempt = await troubles.attempt(`Building the ${what}`, async () => host.build(await plan()));
  const after = attempt.ok ? more() : '';
  await workbook.look();
  if (!attempt.ok) return undefined;
  const { sheet } = attempt.value;
  front.arrive(`Built the sheet “${sheet}”${after}`);
  return sheet;
}
