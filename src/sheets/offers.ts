import { TINY } from '../photometry/bounds';
import type { Offer, UsePlan } from '../procurement/offers/offer';
import { cellsOf } from './address';
import { PlanBuilder } from './builder';
import { agreement } from './phrases/agree';
import type { Plan, PlanCell } from './plan';
import { type Column, type PlacedRows, putRows } from './rows';

export const OFFERS_VERSION = 4;

export interface OffersSetup {
  /** Light output asked for, lm. */
  readonly asked: { readonly white?: number; readonly colour?: number };
  /** What is not known yet stays empty, and costs wait for it. */
  readonly use: Partial<UsePlan>;
  readonly offers: readonly Offer[];
  /** Empty lines left for further offers. */
  readonly spare: number;
}

type At = (key: string) => string;
const positive = (max: number) => ({ type: 'number', min: TINY, max }) as const;
const text = (max: number) => ({ type: 'length', max }) as const;

/** Figures are typed with few digits, needs computed with many: a rounding must not decide. */
const ENOUGH = '0.999999999';
const HOURS = 'Years*HoursPerYear';

const hasBidder = (at: At, value: string) => `IF(COUNTA(${at('bidder')})=0,"",${value})`;
/** Without figures to hold it against, an offer is not judged at all: nothing must count as met by 0 lm. */
const judged = (at: At, value: string) =>
  hasBidder(at, `IF(COUNT(AskedWhite,AskedColour)<2,"no need",${value})`);
const short = (figure: string, asked: string) => `AND(ISNUMBER(${figure}),N(${figure})<${asked}*${ENOUGH})`;
/** Replacement sources over the planned hours; the first one comes with the unit. */
const replacements = (at: At) => `MAX(0,ROUNDUP(${HOURS}/${at('life')}-0.000000001,0)-1)`;
const isOneCurrency = (at: At) => `UPPER(TRIM(${at('currency')}))=UPPER(TRIM(Currency))`;
/** Nothing is in a currency that nobody has named. */
const inCurrency = (at: At) => `AND(LEN(TRIM(${at('currency')}))>0,${isOneCurrency(at)})`;

/** The life cost needs every figure, in the currency of the plan; a source price only where one is bought. */
function costed(at: At, value: string): string {
  const needed = [at('price'), at('power'), at('life'), 'Years', 'HoursPerYear', 'Tariff'].join(',');
  return hasBidder(
    at,
    `IF(OR(COUNT(${needed})<6,LEN(TRIM(${at('currency')}))=0,LEN(TRIM(Currency))=0),"ask",IF(NOT(${isOneCurrency(at)}),"other currency",IF(AND(${replacements(at)}>0,COUNT(${at('source')})=0),"ask",${value})))`,
  );
}

const perLumenHour = (at: At, figure: string) =>
  `IF(COUNT(${at('plain')},${at(figure)})<2,"",${at('plain')}/(${at(figure)}*${HOURS}))`;

/** What to ask back, in the order of the columns. */
function questions(at: At): string {
  const ask = (condition: string, words: string) => `IF(${condition},"${words}; ","")`;
  const missing = (key: string, words: string) => ask(`COUNTA(${at(key)})=0`, words);
  return hasBidder(
    at,
    [
      missing('white', 'white light output'),
      missing('colour', 'colour light output, by full fields'),
      missing('standard', 'the measuring standard'),
      ask(
        `AND(COUNT(${at('white')},${at('colour')})=2,N(${at('colour')})>1.05*N(${at('white')}))`,
        'colour is stated above white: both figures of one mode?',
      ),
      missing('price', 'price'),
      ask(`AND(COUNT(${at('price')})=1,NOT(${inCurrency(at)}))`, 'price in the currency of the plan'),
      missing('power', 'electric power in that mode'),
      missing('life', 'hours until the source is replaced'),
      ask(
        `IF(COUNT(${at('life')})=0,FALSE,AND(${replacements(at)}>0,COUNT(${at('source')})=0))`,
        'price of a replacement source',
      ),
      missing('warranty', 'warranty'),
    ].join('&'),
  );
}

/** Columns of the table of offers, by their keys. */
export const OFFERS_COLUMNS: readonly Column<Offer>[] = [
  {
    key: 'bidder',
    label: 'Bidder and offer',
    unit: '',
    width: 30,
    role: 'input',
    format: '@',
    value: ({ bidder }) => bidder,
    rule: text(80),
    why: 'As the bid names it; it is kept as text.',
    name: 'Bidders',
  },
  {
    key: 'white',
    label: 'Rated white',
    unit: 'lm',
    width: 9,
    role: 'input',
    format: '#,##0',
    value: ({ white }) => white,
    rule: positive(1e6),
    why: 'Rated white light output. Leave empty if it is not stated: that is a question, not a zero.',
    name: 'OfferWhite',
  },
  {
    key: 'colour',
    label: 'Rated colour',
    unit: 'lm',
    width: 9,
    role: 'input',
    format: '#,##0',
    value: ({ colour }) => colour,
    rule: positive(1e6),
    why: 'Rated colour light output. Leave empty if it is not stated.',
    name: 'OfferColour',
  },
  {
    key: 'standard',
    label: 'Standard named',
    unit: '',
    width: 20,
    role: 'input',
    format: '@',
    value: ({ standard }) => standard,
    rule: text(80),
    why: 'The standard both figures are rated by, as the bidder names it.',
    name: 'OfferStandard',
  },
  {
    key: 'price',
    label: 'Price',
    unit: 'one unit',
    width: 10,
    role: 'input',
    format: '#,##0.00',
    value: ({ price }) => price,
    rule: positive(1e9),
    why: 'Price of one unit, in the currency to the right.',
    name: 'OfferPrice',
  },
  {
    key: 'currency',
    label: 'Currency',
    unit: '',
    width: 9,
    role: 'input',
    format: '@',
    value: ({ currency }) => currency,
    rule: text(12),
    why: 'Currency of the price. Nothing is ever converted.',
    name: 'OfferCurrency',
  },
  {
    key: 'power',
    label: 'Power',
    unit: 'W',
    width: 8,
    role: 'input',
    value: ({ power }) => power,
    rule: positive(1e5),
    why: 'Electric power in the rated mode.',
    name: 'OfferPower',
  },
  {
    key: 'life',
    label: 'Source life',
    unit: 'h',
    width: 9,
    role: 'input',
    format: '#,##0',
    value: ({ sourceLife }) => sourceLife,
    rule: positive(1e6),
    why: 'Hours until the light source is replaced.',
    name: 'OfferSourceLife',
  },
  {
    key: 'source',
    label: 'Source price',
    unit: 'each',
    width: 9,
    role: 'input',
    format: '#,##0.00',
    value: ({ sourcePrice }) => sourcePrice,
    rule: positive(1e9),
    why: 'Price of a replacement source, in the same currency.',
    name: 'OfferSourcePrice',
  },
  {
    key: 'warranty',
    label: 'Warranty',
    unit: 'years',
    width: 9,
    role: 'input',
    value: ({ warranty }) => warranty,
    rule: { type: 'number', min: 0, max: 30 },
    why: 'Years of warranty.',
    name: 'OfferWarranty',
  },
  {
    key: 'state',
    label: 'Meets the need?',
    unit: 'LIGHT',
    width: 9,
    role: 'called',
    formula: (at) => judged(at, `LIGHT.OFFERSTATE(AskedWhite,AskedColour,${at('white')},${at('colour')})`),
  },
  {
    key: 'stated',
    label: 'Meets the need?',
    unit: 'plain',
    width: 9,
    role: 'twin',
    formula: (at) =>
      judged(
        at,
        `IF(OR(${short(at('white'), 'AskedWhite')},${short(at('colour'), 'AskedColour')}),"short",IF(COUNT(${at('white')},${at('colour')})<2,"ask","meets"))`,
      ),
    name: 'OfferState',
  },
  {
    key: 'marginWhite',
    label: 'White against need',
    unit: '',
    width: 9,
    role: 'derived',
    format: '+0 %;-0 %;0 %',
    formula: (at) => `IF(COUNT(${at('white')},AskedWhite)<2,"",${at('white')}/AskedWhite-1)`,
  },
  {
    key: 'marginColour',
    label: 'Colour against need',
    unit: '',
    width: 9,
    role: 'derived',
    format: '+0 %;-0 %;0 %',
    formula: (at) => `IF(COUNT(${at('colour')},AskedColour)<2,"",${at('colour')}/AskedColour-1)`,
  },
  {
    key: 'perWhite',
    label: 'Price per white lumen',
    unit: 'per lm',
    width: 10,
    role: 'derived',
    format: '0.000',
    formula: (at) => `IF(COUNT(${at('price')},${at('white')})<2,"",${at('price')}/${at('white')})`,
  },
  {
    key: 'perColour',
    label: 'Price per colour lumen',
    unit: 'per lm',
    width: 10,
    role: 'derived',
    format: '0.000',
    formula: (at) => `IF(COUNT(${at('price')},${at('colour')})<2,"",${at('price')}/${at('colour')})`,
  },
  {
    key: 'cost',
    label: 'Cost over the years',
    unit: 'LIGHT',
    width: 13,
    role: 'called',
    format: '#,##0',
    formula: (at) =>
      costed(
        at,
        `LIGHT.LIFECOST(${at('price')},${at('power')},${HOURS},Tariff,${at('life')},${at('source')})`,
      ),
  },
  {
    key: 'plain',
    label: 'Cost over the years',
    unit: 'plain',
    width: 13,
    role: 'twin',
    format: '#,##0',
    formula: (at) =>
      costed(at, `${at('price')}+${at('power')}/1000*${HOURS}*Tariff+${replacements(at)}*N(${at('source')})`),
    name: 'OfferCost',
  },
  {
    key: 'hourWhite',
    label: 'Per white lumen-hour',
    unit: 'per lm·h',
    width: 11,
    role: 'derived',
    format: '0.0000000',
    formula: (at) => perLumenHour(at, 'white'),
  },
  {
    key: 'hourColour',
    label: 'Per colour lumen-hour',
    unit: 'per lm·h',
    width: 11,
    role: 'derived',
    format: '0.0000000',
    formula: (at) => perLumenHour(at, 'colour'),
    name: 'OfferPerColourHour',
  },
  {
    key: 'agree',
    label: 'the two',
    unit: '',
    width: 16,
    role: 'check',
    formula: (at) => {
      const costs = agreement(at('cost'), at('plain'));
      // Without the add-in there is no state to compare with: that is no difference.
      return `IF(ISERROR(${at('state')}),${costs},IF(${at('state')}<>${at('stated')},"differ",${costs}))`;
    },
    name: 'Agreement',
  },
  {
    key: 'ask',
    label: 'What to ask back',
    unit: '',
    width: 48,
    role: 'check',
    formula: questions,
    name: 'OfferQuestions',
  },
];

/**
 * Estimate, worked by hand for light that falls with the square of the distance from the centre, 1 − c·(x² + y²), on an
 * image of side 1: nine points tell 1 − 4c/27, the whole image has 1 − c/6, the darkest point 1 − 2c/9. With 0.8 there,
 * c = 0.9 and the whole has 2 % less; with 0.65, c = 1.575 and 4 % less.
 */
const WHOLE_IMAGE =
  'Over the whole image the same light is some 2 % to 4 % less where the darkest point has 0.8 to 0.65 of the brightest (estimate).';

/** Rows of a sheet that are more than a page or two. */
const LONG = 60;

/** One line an offer: does it meet the need, what does its light cost, what must be asked back. */
export function offersPlan(setup: OffersSetup, id: string): Plan {
  const b = new PlanBuilder();
  b.wide('A1:J1', { role: 'title', value: 'Offers: what bidders state, against the need' }).height(1, 26);
  b.wide('A2:J2', {
    role: 'note',
    value:
      'A figure that is not stated is a question, not a zero. Costs: price + power × hours × tariff + replacement sources; nothing is discounted, no repairs, no labour. Light lost by ageing is not taken off. ' +
      `Compare figures of one standard only: nine points are a convention. ${WHOLE_IMAGE} Sort and filter the lines as you like.`,
  }).height(2, 54);
  const first = putAsked(b, 4, setup);
  putChosen(b, 4);
  const rows = putRows(
    b,
    first + 1,
    OFFERS_COLUMNS,
    setup.offers,
    setup.offers.length + setup.spare,
    'filter and sort',
  );
  putAnswer(b, 3, rows);
  if (setup.offers.length > 0) {
    const cells = (key: string) =>
      rows.range(key).replace(/\d+$/, String(rows.first + setup.offers.length - 1));
    b.chart({
      title: 'Rated light output, lm',
      over: `B${rows.next + 1}:K${rows.next + 16}`,
      categories: cells('bidder'),
      series: [
        { name: 'white', values: cells('white') },
        { name: 'colour', values: cells('colour') },
      ],
    });
  }
  return b.build({
    kind: 'offers',
    version: OFFERS_VERSION,
    id,
    title: 'Offers',
    columns: rows.widths,
    print: {
      orientation: 'landscape',
      titleColumns: 'A:A',
      // On a page or two the heads are near; below them other things would stand under heads that are not theirs.
      ...(rows.last > LONG ? { titles: `${rows.first - 2}:${rows.first - 1}` } : {}),
    },
    start: `A${rows.first}`,
    freeze: { rows: rows.first - 1, columns: 1 },
  });
}

/** How many offers meet the need, and which, above everything else; of long lists only how many. */
function putAnswer(b: PlanBuilder, row: number, rows: PlacedRows): void {
  const meeting = 'COUNTIF(OfferState,"meets")';
  b.wide(`A${row}:D${row}`, {
    role: 'answer',
    formula: `=IF(COUNTA(Bidders)=0,"No offers yet",${meeting}&" of "&COUNTA(Bidders)&IF(COUNTA(Bidders)=1," offer"," offers")&" enough")`,
  });
  const [bidders, states] = [cellsOf(rows.range('bidder')), cellsOf(rows.range('stated'))];
  const names = bidders.map((bidder, i) => `IF(${states[i]}="meets",", "&${bidder},"")`).join('&');
  const which = bidders.length > MOST_NAMED ? '""' : `MID(${names},3,500)`;
  b.wide(`E${row}:O${row}`, { role: 'check', formula: `=${which}` }).height(row, 26);
}

/** Offers that are named where they meet the need: a formula holds 8192 characters. */
const MOST_NAMED = 60;

/** What all offers are held against. */
function putAsked(b: PlanBuilder, row: number, { asked, use }: OffersSetup): number {
  const lines: [string, string, number | string | undefined, number | undefined, string][] = [
    ['White asked for, lm', 'AskedWhite', asked.white, 1e6, 'White light output asked for, from the need.'],
    [
      'Colour asked for, lm',
      'AskedColour',
      asked.colour,
      1e6,
      'Colour light output asked for, from the need.',
    ],
    ['Planned years', 'Years', use.years, 50, 'How many years the units are planned for.'],
    ['Hours a year', 'HoursPerYear', use.hoursPerYear, 8784, 'Hours of use a year.'],
    ['Price of a kilowatt hour', 'Tariff', use.tariff, 1000, 'In the currency below.'],
    [
      'Currency of the plan',
      'Currency',
      use.currency,
      undefined,
      'Only offers in this currency get costs over the years; nothing is converted.',
    ],
  ];
  lines.forEach(([label, name, value, max, why], i) => {
    const r = row + i;
    b.put(`A${r}`, { role: 'label', value: label });
    b.wide(`B${r}:C${r}`, {
      role: 'input',
      ...(value === undefined || value === '' ? {} : { value }),
      format: max === undefined ? '@' : 'General',
    });
    b.name(name, `B${r}`, label);
    b.validate({
      range: `B${r}`,
      rule: max === undefined ? text(12) : positive(max),
      prompt: { title: label.slice(0, 32), message: why },
      refusal: {
        title: label.slice(0, 32),
        message: max === undefined ? 'At most 12 characters.' : `A number above 0, at most ${max}.`,
        style: 'stop',
      },
    });
  });
  return row + lines.length;
}

/**
 * Which offer was chosen, by its name, and its rated figures for other sheets to link to. By name and not by line:
 * lines may be sorted. What stands twice or nowhere is no choice.
 */
function putChosen(b: PlanBuilder, row: number): void {
  const line = (r: number, label: string, name: string, cell: PlanCell) => {
    b.wide(`E${r}:G${r}`, { role: 'label', value: label });
    b.wide(`H${r}:J${r}`, cell).name(name, `H${r}`, label);
  };
  // Letter by letter: "=" takes the asterisk of a name for a wildcard in some programs.
  const matches = 'EXACT(Bidders,ChosenOffer)';
  line(row, 'Chosen offer, by its name', 'ChosenOffer', { role: 'input', format: '@' });
  b.validate({
    range: `H${row}`,
    rule: text(80),
    prompt: {
      title: 'Chosen offer',
      message:
        'The name as it stands below under “Bidder and offer”. Run sheets may be linked to its figures.',
    },
    refusal: { title: 'Chosen offer', message: 'At most 80 characters.', style: 'stop' },
  });
  line(row + 1, 'its line below', 'ChosenLine', {
    role: 'check',
    formula: `=IF(COUNTA(ChosenOffer)=0,"none chosen",IF(SUMPRODUCT(${matches}*1)=1,SUMPRODUCT(${matches}*(ROW(Bidders)-MIN(ROW(Bidders))+1)),IF(SUMPRODUCT(${matches}*1)=0,"no offer of that name","several offers of that name")))`,
  });
  const figure = (column: string) =>
    `=IF(COUNT(ChosenLine)=0,ChosenLine,IF(COUNT(INDEX(${column},ChosenLine))=0,"not stated",INDEX(${column},ChosenLine)))`;
  line(row + 2, 'its rated white, lm', 'ChosenWhite', {
    role: 'derived',
    format: '#,##0',
    formula: figure('OfferWhite'),
  });
  line(row + 3, 'its rated colour, lm', 'ChosenColour', {
    role: 'derived',
    format: '#,##0',
    formula: figure('OfferColour'),
  });
}
