import type { KnownSheet } from '../../src/excel/host';
import { outcomeOf } from '../overview/outcome';
import type { Store } from '../store';
import { lookOf } from './look';
import { stateWords } from './statewords';

export interface HeadProps {
  readonly store: Store;
  readonly sheet: KnownSheet;
}

/** What the sheet is, how far it is, and what came out. */
export function Head({ store, sheet }: HeadProps) {
  const line = lookOf(store).line.value;
  return (
    <section class="card sheet-head" aria-labelledby="sheet-kind sheet-title">
      <p class="kind" id="sheet-kind">
        {line?.kind ?? sheet.kind}
      </p>
      <h2 id="sheet-title">{sheet.sheet}</h2>
      {line && (
        <>
          {line.about && line.about !== sheet.sheet && <p class="about">{line.about}</p>}
          <p class={`state ${stateWords(line).tone}`}>
            <span aria-hidden="true">{stateWords(line).sign}</span> {stateWords(line).words}
          </p>
          {/* The results of a run stand below, with what makes their doubt. */}
          {sheet.kind !== 'run' &&
            line.figures.map(({ label, text, decision }) => (
              <p key={label} class="outcome">
                <span class="quiet">{label}</span>
                <strong class={outcomeOf([decision]) ?? ''}>
                  {[text, decision].filter(Boolean).join(', ')}
                </strong>
              </p>
            ))}
        </>
      )}
    </section>
  );
}
