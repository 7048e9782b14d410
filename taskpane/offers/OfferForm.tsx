import { useSignal } from '@preact/signals';
import { whole } from '../../src/procurement/wording/format';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import { Fields } from '../components/Field';
import { FieldGroup } from '../components/FieldGroup';
import { Fold } from '../components/Fold';
import look from '../components/look.module.css';
import { OFFER_IDS, type OfferField } from './fields';
import own from './OfferForm.module.css';
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
const FIRST: readonly OfferField[] = ['bidder', 'white', 'colour', 'price', 'currency'];
const FURTHER = OFFER_IDS.filter((id) => !FIRST.includes(id));

/** One offer: folded it tells how it stands, unfolded it can be typed. */
export function OfferForm({ step, entry, place }: OfferFormProps) {
  const { form, assessment } = entry;
  const texts = form.texts.value;
  const isOpen = useSignal(isBlankOffer(texts));
  const isUnfit = form.unfit.value.some(form.isWrong);
  const at = `offers-${place}`;
  return (
    <Fold
      title={texts.bidder.trim() || `Offer ${place}`}
      gist={assessment ? STATE_WORDS[assessment.state].join(' ') : isUnfit ? 'needs another look' : ''}
      isOpen={isOpen.value || isUnfit}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <div class={`${look.pair} ${own.first}`}>
        <Fields form={form} at={at} ids={FIRST} />
      </div>
      <FieldGroup
        form={form}
        at={at}
        ids={FURTHER}
        title="Further figures"
        gist="standard, power, light source, warranty: what stays empty is asked back"
        isDense
      />
      <Stand entry={entry} />
      <div>
        <Action onAct={() => step.lines.drop(form)}>Remove offer {place}</Action>
      </div>
    </Fold>
  );
}

/** How the offer stands: state, cost, what to ask back. */
function Stand({ entry }: { readonly entry: OfferEntry }) {
  const { assessment } = entry;
  if (!assessment)
    return (
      <p class={look.quiet} role="status">
        An empty field is a question to the bidder, not a zero.
      </p>
    );
  const { state, white, colour, lifeCost, offer, questions } = assessment;
  const margin = (part: number | undefined) =>
    part === undefined
      ? 'not stated'
      : `${part >= 1 ? '+' : '\u2212'}${Math.abs((part - 1) * 100).toFixed(1)} %`;
  return (
    <div class={own.stand} role="status">
      <p>
        <strong>{STATE_WORDS[state].join(' ')}</strong>
      </p>
      <p class={look.quiet}>
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
