import { Action } from '../components/Action';
import { Fields } from '../components/Field';
import { FieldGroup } from '../components/FieldGroup';
import look from '../components/look.module.css';
import type { OffersStep } from './state';

/** What all offers are held against: the light asked for and the planned use. */
export function Asked({ step }: { readonly step: OffersStep }) {
  const { asked, need, askedFrom } = step;
  const { years, hoursPerYear } = asked.texts.value;
  return (
    <section class={look.card} aria-labelledby="offers-asked-title">
      <h2 id="offers-asked-title">Asked for</h2>
      {need.shown.value && (
        <div>
          <Action onAct={step.takeNeed}>Take the figures of “{need.shown.value}”</Action>
        </div>
      )}
      <p class={look.quiet} role="status">
        {askedFrom.value}
      </p>
      <div class={look.pair}>
        <Fields form={asked} ids={['white', 'colour']} />
      </div>
      <FieldGroup
        form={asked}
        ids={['years', 'hoursPerYear', 'tariff', 'currency']}
        title="The planned use"
        gist={`${years} years of ${hoursPerYear} h, for the cost`}
        isDense
      />
    </section>
  );
}
