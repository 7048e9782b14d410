import { Build } from '../components/Build';
import { Fields } from '../components/Field';
import { FieldGroup } from '../components/FieldGroup';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { Drawn } from './Drawn';
import type { LotField } from './form';
import { inspectionWords } from './planfields';
import { acceptOf } from './state';

const DRAW: readonly LotField[] = ['lot', 'serials', 'aql', 'seed', 'drawnBy'];
const LIMITS: readonly LotField[] = ['leastWhite', 'leastColour', 'counting'];

/** A lot: its list and the sample drawn from it. */
export function Lot({ store }: { readonly store: Store }) {
  const accept = acceptOf(store);
  const { form, limitsFrom, report } = accept;
  return (
    <>
      <section class={look.card} aria-labelledby="accept-lot-title">
        <h2 id="accept-lot-title">Sample of a lot</h2>
        <Fields form={form} ids={DRAW} />
        <FieldGroup
          form={form}
          ids={['level', 'severity']}
          title="How the sample is drawn"
          gist={inspectionWords(form.texts.value)}
        />
        {limitsFrom.value && (
          <p class={look.quiet} role="status">
            {limitsFrom.value}
          </p>
        )}
        <Fields form={form} ids={LIMITS} />
      </section>
      <Drawn accept={accept} />
      <section class={look.card} aria-labelledby="accept-build-title">
        <h2 id="accept-build-title">Sheet</h2>
        <Build isOff={store.troubles.busy.value !== ''} report={report.value} onBuild={accept.build}>
          Build the acceptance sheet
        </Build>
      </section>
    </>
  );
}
