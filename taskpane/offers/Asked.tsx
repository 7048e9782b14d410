import { Action } from '../components/Action';
import { AskedEntry } from '../components/AskedEntry';
import { Entry } from '../components/Entry';
import { Further } from '../components/Further';
import { ASKED_NUMBERS, type AskedNumber } from './asked';
import type { OffersStep } from './state';

/** What the cost over the years hangs on; the price of power may come later. */
const USE = ['years', 'hoursPerYear', 'tariff'] as const;

/** What all offers are held against: the light asked for and the planned use. */
export function Asked({ step }: { readonly step: OffersStep }) {
  const { asked, understoodAsked, isAllShown, need, askedFrom } = step;
  const texts = asked.value;
  const { numbers, currency } = understoodAsked.value;
  const isShown = (text: string) => isAllShown.value || text.trim() !== '';
  const number = (id: AskedNumber) => (
    <AskedEntry
      key={id}
      id={`offers-${id}`}
      label={ASKED_NUMBERS[id].label}
      hint={ASKED_NUMBERS[id].hint}
      value={texts[id]}
      read={numbers[id]}
      isShown={isShown(texts[id])}
      onType={(text) => step.typeAsked(id, text)}
      onDecide={(mark) => step.decideAsked(id, mark)}
    />
  );
  return (
    <section class="card" aria-labelledby="offers-asked-title">
      <h2 id="offers-asked-title">Asked for</h2>
      {need.shown.value && (
        <div>
          <Action onAct={step.takeNeed}>Take the figures of “{need.shown.value}”</Action>
        </div>
      )}
      <p class="quiet" role="status">
        {askedFrom.value}
      </p>
      <div class="pair">{(['white', 'colour'] as const).map(number)}</div>
      <Further
        title="The planned use"
        gist={`${texts.years} years of ${texts.hoursPerYear} h, for the cost`}
        isOpen={USE.some(
          (id) => isShown(texts[id]) && (numbers[id].problem ?? numbers[id].question) !== undefined,
        )}
      >
        <div class="pair">
          {USE.map(number)}
          <Entry
            id="offers-plan-currency"
            label="Currency of the plan"
            value={texts.currency}
            hint="Nothing is ever converted."
            error={isShown(texts.currency) ? currency : undefined}
            onType={(text) => step.typeAsked('currency', text)}
          />
        </div>
      </Further>
    </section>
  );
}
