import { replacements } from './cost';
import { isStated, type Offer, sameCurrency, type UsePlan } from './offer';

/** Colour light output above white by more than this is a slip or another method, not light (common practice). */
const COLOUR_OVER_WHITE = 1.05;

/** What to ask the bidder back, in the order of the columns; nothing if the offer is complete. */
export function questionsFor(offer: Offer, plan: UsePlan): string[] {
  return [...lightQuestions(offer), ...moneyQuestions(offer, plan), ...useQuestions(offer, plan)];
}

function lightQuestions({ white, colour, standard }: Offer): string[] {
  return [
    ...unless(
      white !== undefined,
      'Please state the white light output in lumens, measured in the mode offered.',
    ),
    ...unless(
      colour !== undefined,
      'Please state the colour light output in lumens: red, green and blue full fields measured like white, in the same mode, and added up.',
    ),
    ...unless(isStated(standard), 'By which standard, with its year, was the light output measured?'),
    ...unless(
      white === undefined || colour === undefined || colour <= white * COLOUR_OVER_WHITE,
      'The colour light output stated is larger than the white one. Please confirm both figures, and that they belong to one mode.',
    ),
  ];
}

function moneyQuestions({ price, currency }: Offer, plan: UsePlan): string[] {
  if (price === undefined) return ['Please state the price of one unit with its currency.'];
  if (!isStated(currency)) return ['In which currency is the price?'];
  return unless(
    sameCurrency(currency, plan.currency),
    `The price is in ${currency.trim()}, costs are compared in ${plan.currency.trim()}. Please state the price in ${plan.currency.trim()}.`,
  );
}

function useQuestions({ power, sourceLife, sourcePrice, warranty }: Offer, plan: UsePlan): string[] {
  const needed =
    sourceLife === undefined ? undefined : replacements(plan.years * plan.hoursPerYear, sourceLife);
  const isBought = needed?.ok === true && needed.value > 0;
  return [
    ...unless(power !== undefined, 'Please state the electric power in the mode offered, in watts.'),
    ...unless(
      sourceLife !== undefined,
      'After how many hours is the light source to be replaced, and what is left of the light output by then?',
    ),
    ...unless(
      !isBought || sourcePrice !== undefined,
      'What does a replacement light source cost, with its fitting?',
    ),
    ...unless(
      warranty !== undefined,
      'How many years of warranty are given, and on how many hours of the source?',
    ),
  ];
}

function unless(isFine: boolean, question: string): string[] {
  return isFine ? [] : [question];
}
