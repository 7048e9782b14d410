import { Action } from '../components/Action';
import { Fields } from '../components/Field';
import look from '../components/look.module.css';
import { Report } from '../components/Report';
import type { Store } from '../store';
import { Gist, Preview } from './Preview';
import type { TemplatesStep } from './state';
import shared from './templates.module.css';

/** The lot, where it is there already. */
const OF_LOT = ['serials', 'lot', 'seed', 'drawnBy'] as const;

/** A template about to be built: what it cannot know, what would be built, and how far it is. */
export function ApplyCard({ store, step }: { readonly store: Store; readonly step: TemplatesStep }) {
  const { applying } = step;
  const template = applying.template.value;
  const set = applying.set.value;
  const at = applying.progress.value;
  if (!template || !set) return null;
  const isBusy = store.troubles.busy.value !== '';
  return (
    <section class={look.card} aria-labelledby="templates-apply-title">
      <h2 id="templates-apply-title">Build the sheets of “{template.title}”</h2>
      {at ? (
        <div class={shared.asked}>
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
          <Fields form={applying.form} ids={['label']} />
          {applying.asksForLot.value && <Fields form={applying.form} ids={OF_LOT} />}
          <Preview set={set} />
          <div class={look.answers}>
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
