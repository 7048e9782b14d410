import { bad, chain, good, missing } from '../photometry/outcome';
import { costPerLumen, costPerLumenHour, lifeCost, replacements } from '../procurement/offers/cost';
import { judge, together } from '../procurement/offers/judge';
import { known } from './lists';
import { number } from './params';
import { define } from './record';

// Money and light of 0 are how empty cells arrive: they are missing, not free and not dark.
const money = (what: string) => number(what, 'in one currency', { moreThan: 0 });
const lumens = (what: string) => number(what, 'lm', { moreThan: 0 });
const hours = () => number('planned hours in all', 'h', { moreThan: 0 });
const sourceLife = () => number('hours until the light source is replaced', 'h', { moreThan: 0 });

export const offerFunctions = [
  define({
    id: 'OFFERSTATE',
    summary:
      'Whether an offer meets the need in white and colour: meets, short, or ask where a figure is missing.',
    params: {
      whiteNeed: lumens('white light output asked for'),
      colourNeed: lumens('colour light output asked for'),
      whiteOutput: known('white light output offered', 'lm'),
      colourOutput: known('colour light output offered', 'lm'),
    },
    result: { kind: 'text', unit: '' },
    formula: 'short if either falls short; else ask if either is missing; else meets',
    source: 'common practice: a missing colour figure is a question, not a zero',
    example: '=LIGHT.OFFERSTATE(2500,2500,3200,2600)',
    compute: ({ whiteNeed, colourNeed, whiteOutput, colourOutput }) =>
      good(together(judge(whiteOutput, whiteNeed).state, judge(colourOutput, colourNeed).state)),
  }),
  define({
    id: 'COSTPERLUMEN',
    summary: 'Cost of one lumen of rated light output, white or colour.',
    params: { cost: money('price or cost'), lightOutput: lumens('rated light output') },
    result: { kind: 'number', unit: 'currency per lm' },
    formula: 'cost ÷ light output',
    source: 'plain arithmetic',
    example: '=LIGHT.COSTPERLUMEN(1200,3000)',
    compute: ({ cost, lightOutput }) => costPerLumen(cost, lightOutput),
  }),
  define({
    id: 'REPLACEMENTS',
    summary: 'Replacement light sources over the planned hours; the first source comes with the unit.',
    params: { plannedTime: hours(), sourceLife: sourceLife() },
    result: { kind: 'number', unit: '' },
    formula: 'hours ÷ source life, rounded up, less 1',
    source: 'plain arithmetic',
    example: '=LIGHT.REPLACEMENTS(10000,4000)',
    compute: ({ plannedTime, sourceLife }) => replacements(plannedTime, sourceLife),
  }),
  define({
    id: 'LIFECOST',
    summary: 'Cost of a unit over the planned hours: price, energy and replacement sources.',
    params: {
      price: money('price of the unit'),
      power: number('electric power', 'W', { moreThan: 0 }),
      plannedTime: hours(),
      tariff: money('price of a kilowatt hour'),
      sourceLife: sourceLife(),
      sourcePrice: known('price of a replacement source', 'in the same currency'),
    },
    result: { kind: 'number', unit: 'currency' },
    formula:
      'price + power ÷ 1000 × hours × tariff + replacements × price of a source; nothing is discounted',
    source: 'plain arithmetic',
    example: '=LIGHT.LIFECOST(1200,300,10000,0.3,4000,150)',
    compute: ({ sourcePrice, plannedTime: hours, ...rest }) =>
      chain(replacements(hours, rest.sourceLife), (count) =>
        count > 0 && sourcePrice === undefined
          ? bad(
              missing(
                'source price',
                `The source price is missing: ${count} replacement${count === 1 ? ' is' : 's are'} needed.`,
              ),
            )
          : chain(lifeCost({ ...rest, hours, sourcePrice: sourcePrice ?? 0 }), ({ total }) => good(total)),
      ),
  }),
  define({
    id: 'COSTPERLUMENHOUR',
    summary: 'Cost of one rated lumen for one hour; light lost by ageing is not taken off.',
    params: {
      cost: money('cost over the planned hours'),
      lightOutput: lumens('rated light output'),
      plannedTime: hours(),
    },
    result: { kind: 'number', unit: 'currency per lm·h' },
    formula: 'cost ÷ (light output × hours)',
    source: 'plain arithmetic',
    example: '=LIGHT.COSTPERLUMENHOUR(2400,3000,10000)',
    compute: ({ cost, lightOutput, plannedTime }) => costPerLumenHour(cost, lightOutput, plannedTime),
  }),
];
