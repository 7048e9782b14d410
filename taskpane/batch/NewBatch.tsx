import { Action } from '../components/Action';
import { Field, Fields } from '../components/Field';
import { FieldGroup } from '../components/FieldGroup';
import { focusUnfit } from '../components/focus';
import look from '../components/look.module.css';
import { newRunOf } from '../run/newrun';
import { FurtherFields, ImageFields, ModelFields } from '../run/ui/NewRun';
import type { FieldId } from '../setup/field';
import type { Store } from '../store';
import type { BatchField } from './form';
import type { BatchStep } from './state';

/** What is known of the unit that centre readings are held against. */
const OF_REFERENCE: readonly BatchField[] = [
  'whiteReference',
  'colourReference',
  'whiteOutput',
  'colourOutput',
];

/** What a batch does not take of a run's set-up. */
const UNUSED: ReadonlySet<FieldId> = new Set<FieldId>([
  'colour',
  'standard',
  'ambient',
  'black',
  'checkerboard',
  'corners',
  'serial',
  'place',
  'date',
  'repeats',
]);

export interface BatchProps {
  readonly store: Store;
  readonly step: BatchStep;
}

/** Names, what is read, and the button that builds the sheet. */
export function NewBatch({ store, step }: BatchProps) {
  const run = newRunOf(store).form;
  const { form, unitsFrom, takeReference } = step;
  const reading = store.workbook.reading.value;
  const isReferenced = form.table.reference.applies?.(form.texts.value);
  return (
    <>
      <p class={look.quiet}>Many units of one model in one mode, with one meter at one image size.</p>
      <Fields form={form} ids={['title', 'units']} />
      {unitsFrom.value && <p class={look.quiet}>{unitsFrom.value}</p>}
      <Fields form={form} ids={['readings', 'ambient', 'reference']} />
      {isReferenced && reading && (
        <div>
          <Action onAct={takeReference}>Take it from the run “{reading.sheet}”</Action>
        </div>
      )}
      {isReferenced && (
        <div class={look.pair}>
          <Fields form={form} ids={OF_REFERENCE} />
        </div>
      )}
      <ModelFields form={run} />
      <ImageFields form={run} />
      <Field form={run} id="meterUnit" />
      <FieldGroup
        form={form}
        ids={['lines', 'whiteStated', 'colourStated']}
        title="The table"
        gist="more lines than units, a U that is stated"
        isDense
      />
      <FurtherFields store={store} isUsed={(id) => !UNUSED.has(id)} />
      <Action
        isMain
        isOff={store.troubles.busy.value !== ''}
        onAct={() => void step.build().then((isBuilt) => isBuilt || focusUnfit())}
      >
        Build the batch sheet
      </Action>
    </>
  );
}
