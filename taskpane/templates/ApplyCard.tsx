import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import { Report } from '../components/Report';
import type { Store } from '../store';
import type { AnswerTexts } from './applying';
import { Gist, Preview } from './Preview';
import type { TemplatesStep } from './state';

const LINES: readonly (readonly [keyof AnswerTexts, string, string])[] = [
  ['lot', 'Lot', 'As the delivery note calls it.'],
  ['seed', 'Seed of the draw', 'Fixed in public after the list was closed, say by dice.'],
  ['drawnBy', 'Drawn by', 'And before whom.'],
];

/** A template about to be built: what it cannot know, what would be built, and how far it is. */
export function ApplyCard({ store, step }: { readonly store: Store; readonly step: TemplatesStep }) {
  const { applying } = step;
  const template = applying.template.value;
  const set = applying.set.value;
  const at = applying.progress.value;
  if (!template || !set) return null;
  const isBusy = store.troubles.busy.value !== '';
  return (
    <section class="card" aria-labelledby="templates-apply-title">
      <h2 id="templates-apply-title">Build the sheets of “{template.title}”</h2>
      {at ? (
        <div class="building">
          <p role="status">
            Sheet {at.done + 1} of {at.of}: {at.label}
          </p>
          <progress max={at.of} value={at.done} aria-label="sheets built" />
          <Action isOff={applying.isStopping.value} onAct={applying.stop}>
            {applying.isStopping.value ? 'Stopping after this sheet' : 'Stop'}
          </Action>
        </div>
      ) : (
        <>
          <Gist template={template} />
          <Entry
            id="templates-label"
            label="Word before the names of the sheets"
            hint="Tells two bids in one workbook apart. Empty for none."
            value={applying.answers.value.label}
            onType={(text) => applying.answer('label', text)}
          />
          {applying.asksForLot.value && <Lot step={step} />}
          <Preview set={set} />
          <div class="answers">
            <Action isMain isOff={isBusy || set.steps.length === 0} onAct={() => void applying.build()}>
              {set.steps.length === 1 ? 'Build the sheet' : `Build the ${set.steps.length} sheets`}
            </Action>
            <Action onAct={() => applying.choose(undefined)}>Close</Action>
          </div>
        </>
      )}
      <Report words={applying.report.value} />
    </section>
  );
}

/** The lot, where it is there already. */
function Lot({ step }: { readonly step: TemplatesStep }) {
  const { answers, answer } = step.applying;
  return (
    <>
      <div class="field">
        <label for="templates-serials">Serials of every unit, one a line</label>
        <textarea
          id="templates-serials"
          rows={4}
          spellcheck={false}
          value={answers.value.serials}
          aria-describedby="templates-serials-note"
          onInput={(event) => answer('serials', event.currentTarget.value)}
        />
        <p class="hint" id="templates-serials-note">
          Empty until the lot has arrived: what needs it is then left out.
        </p>
      </div>
      {LINES.map(([id, label, hint]) => (
        <Entry
          key={id}
          id={`templates-${id}`}
          label={label}
          hint={hint}
          value={answers.value[id]}
          onType={(text) => answer(id, text)}
        />
      ))}
    </>
  );
}
