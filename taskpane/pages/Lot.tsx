import { Drawn } from '../accept/Drawn';
import type { LeastLight, LotTexts } from '../accept/form';
import { PlanChoices } from '../accept/PlanChoices';
import { type Accept as AcceptState, acceptOf } from '../accept/state';
import { Build } from '../components/Build';
import { Entry } from '../components/Entry';
import { RetypedEntry } from '../components/RetypedEntry';
import type { Store } from '../store';

const COUNTINGS = [
  ['value', 'By the measured value', 'A pass and a conditional pass conform.'],
  ['strict', 'Strictly', 'Only a pass conforms.'],
  ['lenient', 'Leniently', 'Everything but a fail conforms.'],
] as const;

/** A lot: its list and the sample drawn from it. */
export function Lot({ store }: { readonly store: Store }) {
  const accept = acceptOf(store);
  const { texts, report } = accept;
  const isBusy = store.troubles.busy.value !== '';
  return (
    <>
      <section class="card" aria-labelledby="accept-lot-title">
        <h2 id="accept-lot-title">Sample of a lot</h2>
        <Line accept={accept} id="lot" label="Lot" hint="As the delivery note calls it." />
        <List accept={accept} />
        <PlanChoices step="accept" texts={texts.value} onPick={accept.type} />
        <Line
          accept={accept}
          id="seed"
          label="Seed"
          hint="Fixed in public after the list was closed, say by dice: the same list and seed give the same sample to everybody."
        />
        <Line accept={accept} id="drawnBy" label="Drawn by" hint="And before whom." />
        {accept.limitsFrom.value && (
          <p class="quiet" role="status">
            {accept.limitsFrom.value}
          </p>
        )}
        <Least accept={accept} id="leastWhite" label="Least white, lm" hint="Empty: white is not judged." />
        <Least
          accept={accept}
          id="leastColour"
          label="Least colour, lm"
          hint="Empty: colour is not judged."
        />
        <div class="field">
          <label for="accept-counting">How decisions count</label>
          <select
            id="accept-counting"
            value={texts.value.counting}
            aria-describedby="accept-counting-note"
            onChange={(event) => accept.type('counting', event.currentTarget.value)}
          >
            {COUNTINGS.map(([value, words]) => (
              <option key={value} value={value}>
                {words}
              </option>
            ))}
          </select>
          <p class="hint" id="accept-counting-note">
            {COUNTINGS.find(([value]) => value === texts.value.counting)?.[2]}
          </p>
        </div>
      </section>
      <Drawn accept={accept} />
      <section class="card" aria-labelledby="accept-build-title">
        <h2 id="accept-build-title">Sheet</h2>
        <Build isOff={isBusy} report={report.value} onBuild={accept.build}>
          Build the acceptance sheet
        </Build>
      </section>
    </>
  );
}

interface LineProps {
  readonly accept: AcceptState;
  readonly id: Exclude<keyof LotTexts, 'serials' | LeastLight>;
  readonly label: string;
  readonly hint: string;
}

/** What is merely still missing is not held against somebody who is typing. */
function problemOf({ isAllShown, texts, understood }: AcceptState, id: keyof LotTexts): string | undefined {
  return isAllShown.value || texts.value[id].trim() !== '' ? understood.value.problems[id] : undefined;
}

function Line({ accept, id, label, hint }: LineProps) {
  return (
    <Entry
      id={`accept-${id}`}
      label={label}
      value={accept.texts.value[id]}
      hint={hint}
      error={problemOf(accept, id)}
      onType={(text) => accept.type(id, text)}
    />
  );
}

/** A light output that a unit must have. */
function Least({ accept, id, label, hint }: Omit<LineProps, 'id'> & { readonly id: LeastLight }) {
  return (
    <RetypedEntry
      id={`accept-${id}`}
      label={label}
      value={accept.texts.value[id]}
      hint={hint}
      read={accept.understood.value.numbers[id]}
      problem={problemOf(accept, id)}
      onType={(text) => accept.type(id, text)}
    />
  );
}

/** Every serial of the lot, one a line. */
function List({ accept }: { readonly accept: AcceptState }) {
  const error = problemOf(accept, 'serials');
  return (
    <div class="field">
      <label for="accept-serials">Serials of every unit, one a line</label>
      <textarea
        id="accept-serials"
        rows={6}
        spellcheck={false}
        value={accept.texts.value.serials}
        aria-describedby="accept-serials-note"
        aria-invalid={error !== undefined}
        onInput={(event) => accept.type('serials', event.currentTarget.value)}
      />
      <div id="accept-serials-note" class="under">
        {error ? <p class="error">{error}</p> : <p class="hint">{accept.understood.value.count} listed.</p>}
      </div>
    </div>
  );
}
