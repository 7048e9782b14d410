import type { KnownSheet } from '../../src/excel/host';
import look from '../components/look.module.css';
import { outcomeOf } from '../overview/outcome';
import type { Store } from '../store';
import { lookOf } from './look';
import own from './SheetHead.module.css';
import { stateWords } from './statewords';

export interface HeadProps {
  readonly store: Store;
  readonly sheet: KnownSheet;
}

/** What the sheet is, how far it is, and what came out. */
export function Head({ store, sheet }: HeadProps) {
  const line = lookOf(store).line.value;
  return (
    <section class={`${look.card} ${own.head}`} aria-labelledby="sheet-kind sheet-title">
      <p class={look.quiet} id="sheet-kind">
        {line?.kind ?? sheet.kind}
      </p>
      <h2 id="sheet-title">{sheet.sheet}</h2>
      {line && (
        <>
          {line.about && line.about !== sheet.sheet && <p>{line.about}</p>}
          <p class={look.state} data-tone={stateWords(line).tone}>
            <span aria-hidden="true">{stateWords(line).sign}</span> {stateWords(line).words}
          </p>
          {/* The results of a run stand below, with what makes their doubt. */}
          {sheet.kind !== 'run' &&
            line.figures.map(({ label, text, decision }) => (
              <p key={label} class={own.outcome}>
                <span class={look.quiet}>{label}</span>
                <strong data-outcome={outcomeOf([decision])}>
                  {[text, decision].filter(Boolean).join(', ')}
                </strong>
              </p>
            ))}
        </>
      )}
    </section>
  );
}
