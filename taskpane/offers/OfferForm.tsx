import { useSignal } from '@preact/signals';
import { whole } from '../../src/procurement/wording/format';
import { Action } from '../components/Action';
import { AskedEntry } from '../components/AskedEntry';
import { CopyText } from '../components/CopyText';
import { Entry } from '../components/Entry';
import { Fold } from '../components/Fold';
import { Further } from '../components/Further';
import { isNumber, OFFER_FIELDS, OFFER_IDS, type OfferField } from './fields';
import { isBlankOffer } from './offer';
import type { OfferEntry, OffersStep } from './state';
import { STATE_WORDS } from './words';

export interface OfferFormProps {
  readonly step: OffersStep;
  readonly entry: OfferEntry;
  /** From 1. */
  readonly place: number;
}

/** What an offer is judged and chosen by; the rest is closed below. */
const FIRST: ReadonlySet<OfferField> = new Set<OfferField>([
  'bidder',
  'white',
  'colour',
  'price',
  'currency',
]);
const FURTHER = OFFER_IDS.filter((id) => !FIRST.has(id));

/** One offer: folded it tells how it stands, unfolded it can be typed. */
export function OfferForm({ step, entry, place }: OfferFormProps) {
  const { key, texts, understood, assessment } = entry;
  const isOpen = useSignal(isBlankOffer(texts));
  const isShown = (text: string) => text.trim() !== '' || (step.isAllShown.value && !isBlankOffer(texts));
  const isUnfit = !understood.offer && step.isAllShown.value && !isBlankOffer(texts);
  const isWrong = (id: OfferField) =>
    isShown(texts[id]) &&
    (isNumber(id)
      ? (understood.numbers[id].problem ?? understood.numbers[id].question) !== undefined
      : understood.texts[id] !== undefined);
  const field = (id: OfferField) => {
    const { label } = OFFER_FIELDS[id];
    const common = {
      id: `offers-${place}-${id}`,
      label,
      value: texts[id],
      onType: (text: string) => step.type(key, id, text),
    };
    return isNumber(id) ? (
      <AskedEntry
        {...common}
        key={id}
        read={understood.numbers[id]}
        isShown={isShown(texts[id])}
        onDecide={(mark) => step.decide(key, id, mark)}
      />
    ) : (
      <Entry {...common} key={id} error={isShown(texts[id]) ? understood.texts[id] : undefined} />
    );
  };
  return (
    <Fold
      title={texts.bidder.trim() || `Offer ${place}`}
      gist={assessment ? STATE_WORDS[assessment.state].join(' ') : isUnfit ? 'needs another look' : ''}
      isOpen={isOpen.value || isUnfit}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <div class="pair offer-fields">{OFFER_IDS.filter((id) => FIRST.has(id)).map(field)}</div>
      <Further
        title="Further figures"
        gist="standard, power, light source, warranty: what stays empty is asked back"
        isOpen={FURTHER.some(isWrong)}
      >
        <div class="pair offer-fields">{FURTHER.map(field)}</div>
      </Further>
      <Stand entry={entry} />
      <div>
        <Action onAct={() => step.drop(key)}>Remove offer {place}</Action>
      </div>
    </Fold>
  );
}

/** How the offer stands: state, cost, what to ask back. */
function Stand({ entry }: { readonly entry: OfferEntry }) {
  const { assessment } = entry;
  if (!assessment)
    return (
      <p class="quiet" role="status">
        An empty field is a question to the bidder, not a zero.
      </p>
    );
  const { state, white, colour, lifeCost, offer, questions } = assessment;
  const margin = (part: number | undefined) =>
    part === undefined
      ? 'not stated'
      : `${part >= 1 ? '+' : '\u2212'}${Math.abs((part - 1) * 100).toFixed(1)} %`;
  return (
    <div class="stand" role="status">
      <p>
        <strong>{STATE_WORDS[state].join(' ')}</strong>
      </p>
      <p class="quiet">
        Against the need: white {margin(white.part)}, colour {margin(colour.part)}.{' '}
        {lifeCost
          ? `Over the years: ${whole(lifeCost.total)} ${offer.currency} a unit (price ${whole(lifeCost.price)}, energy ${whole(lifeCost.energy)}, sources ${whole(lifeCost.sources)}).`
          : 'No cost over the years yet: figures are missing, or the currency is another.'}
      </p>
      {questions.length > 0 && (
        <>
          <h3>To ask back</h3>
          <ul>
            {questions.map((question) => (
              <li key={question}>{question}</li>
            ))}
          </ul>
          <CopyText text={() => questions.join('\n')}>Copy the questions</CopyText>
        </>
      )}
    </div>
  );
}
