import { notAboveZero } from '../../metrology/check';
import { bad, good, type Outcome } from '../../photometry/outcome';
import { type LifeCost, lifeCost, replacements } from './cost';
import { type Judged, judge, type OfferState, together } from './judge';
import { type Offer, offerProblems, planProblems, sameCurrency, type UsePlan } from './offer';
import { questionsFor } from './questions';

/** A figure for each light output; not there where a figure behind it is missing. */
interface PerLight {
  readonly white?: number;
  readonly colour?: number;
}

/** One offer against the need. Money is in the currency of the offer. */
export interface Assessment {
  readonly offer: Offer;
  readonly state: OfferState;
  readonly white: Judged;
  readonly colour: Judged;
  /** Price ÷ rated lumens. */
  readonly pricePerLumen: PerLight;
  /** Over the planned years; only where every figure is stated and the currency is the plan's. */
  readonly lifeCost?: LifeCost;
  readonly costPerLumenHour: PerLight;
  readonly questions: readonly string[];
}

/** An offer against the light output asked for (lm) and the planned use. */
export function assess(
  offer: Offer,
  asked: { readonly white: number; readonly colour: number },
  plan: UsePlan,
): Outcome<Assessment> {
  const problems = [
    ...offerProblems(offer),
    ...notAboveZero(asked.white, 'white light output asked for'),
    ...notAboveZero(asked.colour, 'colour light output asked for'),
    ...planProblems(plan),
  ];
  if (problems.length > 0) return bad(...problems);
  const white = judge(offer.white, asked.white);
  const colour = judge(offer.colour, asked.colour);
  const cost = costOver(offer, plan);
  if (cost && !cost.ok) return cost;
  const whole = cost?.value;
  return good({
    offer,
    state: together(white.state, colour.state),
    white,
    colour,
    pricePerLumen: share(offer.price, offer),
    ...(whole ? { lifeCost: whole } : {}),
    costPerLumenHour: share(whole && whole.total / whole.hours, offer),
    questions: questionsFor(offer, plan),
  });
}

/** Undefined where a figure that counts is missing; the price of a source counts only if one is ever bought. */
function costOver(offer: Offer, plan: UsePlan): Outcome<LifeCost> | undefined {
  const { price, power, sourceLife, sourcePrice } = offer;
  if (price === undefined || power === undefined || sourceLife === undefined) return undefined;
  if (!sameCurrency(offer.currency, plan.currency)) return undefined;
  const hours = plan.years * plan.hoursPerYear;
  const bought = replacements(hours, sourceLife);
  if (!bought.ok) return bought;
  if (bought.value > 0 && sourcePrice === undefined) return undefined;
  return lifeCost({ price, power, hours, tariff: plan.tariff, sourceLife, sourcePrice: sourcePrice ?? 0 });
}

function share(cost: number | undefined, { white, colour }: Offer): PerLight {
  if (cost === undefined) return {};
  return {
    ...(white === undefined ? {} : { white: cost / white }),
    ...(colour === undefined ? {} : { colour: cost / colour }),
  };
}
