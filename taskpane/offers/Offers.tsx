import { Action } from '../components/Action';
import { Build } from '../components/Build';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { Asked } from './Asked';
import { ExportCard } from './ExportCard';
import { ImportCard } from './ImportCard';
import { OfferForm } from './OfferForm';
import { offersOf } from './state';

/** What bidders state, against the need: typed, imported, judged, and a sheet of it. */
export function Offers({ store }: { readonly store: Store }) {
  const step = offersOf(store);
  const { offers, lines, report, exported, importing } = step;
  return (
    <>
      <Asked step={step} />
      <ImportCard importing={importing} />
      {offers.value.map((entry, i) => (
        <OfferForm key={entry.form.key} step={step} entry={entry} place={i + 1} />
      ))}
      {!lines.isFull.value && (
        <div>
          <Action onAct={lines.add}>Add an offer</Action>
        </div>
      )}
      <ExportCard store={store} csv={exported.value} />
      <section class={look.card} aria-labelledby="offers-build-title">
        <h2 id="offers-build-title">Sheet</h2>
        <p class={look.quiet}>
          One line an offer: whether it meets the need, its costs, and what to ask back.
        </p>
        <Build isOff={store.troubles.busy.value !== ''} report={report.value} onBuild={step.build}>
          Build the offers sheet
        </Build>
      </section>
    </>
  );
}
