import type { Host } from '../../src/excel/host';
import type { Plan } from '../../src/sheets/plan';
import { addressesOf } from './cell';

/** A sheet whose rated figures follow the offer chosen on an offers sheet; as it is where they are typed. */
export async function withRated(host: Host, plan: Plan, offers: string | undefined): Promise<Plan> {
  if (offers === undefined) return plan;
  const { ratedLinks, withLinks } = await import('../../src/sheets/linkfigures');
  return withLinks(plan, ratedLinks({ sheet: offers, addresses: addressesOf(await host.read(offers)) }));
}
