import { notAboveZero, notAtLeastZero, unless } from '../../metrology/check';
import { bad, good, type Outcome } from '../../photometry/outcome';

/** Years times hours rarely come out whole in doubles; 5.000000001 source lives are 5. */
const TOLERANCE = 1e-9;

/** Replacement sources over the planned hours; the first one comes with the unit: ceil(hours ÷ life) − 1. */
export function replacements(hours: number, sourceLife: number): Outcome<number> {
  return unless([...notAboveZero(hours, 'planned hours'), ...notAboveZero(sourceLife, 'source life')], () =>
    Math.max(0, Math.ceil(hours / sourceLife - TOLERANCE) - 1),
  );
}

export interface CostInput {
  readonly price: number;
  /** W. */
  readonly power: number;
  /** Planned hours in all. */
  readonly hours: number;
  /** Price of a kilowatt hour. */
  readonly tariff: number;
  readonly sourceLife: number;
  readonly sourcePrice: number;
}

/** All in one currency. */
export interface LifeCost {
  readonly price: number;
  readonly energy: number;
  readonly replacements: number;
  readonly sources: number;
  readonly total: number;
  readonly hours: number;
}

/** Price + power × hours × tariff + replacement sources. Not discounted, no repairs, no labour: say so beside it. */
export function lifeCost(input: CostInput): Outcome<LifeCost> {
  const { price, power, hours, tariff, sourceLife, sourcePrice } = input;
  const problems = [
    ...notAtLeastZero(price, 'price'),
    ...notAtLeastZero(power, 'power'),
    ...notAtLeastZero(tariff, 'price of a kilowatt hour'),
    ...notAtLeastZero(sourcePrice, 'price of a replacement source'),
  ];
  const count = replacements(hours, sourceLife);
  if (!count.ok) return bad(...problems, ...count.problems);
  if (problems.length > 0) return bad(...problems);
  const energy = (power / 1000) * hours * tariff;
  const sources = count.value * sourcePrice;
  return good({
    price,
    energy,
    replacements: count.value,
    sources,
    total: price + energy + sources,
    hours,
  });
}

/** Cost ÷ rated light output. */
export function costPerLumen(cost: number, lumens: number): Outcome<number> {
  return unless(
    [...notAtLeastZero(cost, 'cost'), ...notAboveZero(lumens, 'light output')],
    () => cost / lumens,
  );
}

/** Cost ÷ (rated light output × hours). The rated figure: light lost by ageing is not taken off. */
export function costPerLumenHour(cost: number, lumens: number, hours: number): Outcome<number> {
  return unless(
    [
      ...notAtLeastZero(cost, 'cost'),
      ...notAboveZero(lumens, 'light output'),
      ...notAboveZero(hours, 'hours'),
    ],
    () => cost / (lumens * hours),
  );
}
