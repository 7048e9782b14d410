import { BATCH_READINGS, type BatchReadings, isCentre } from '../../src/procurement/batch/columns';
import { BATCH_AMBIENTS } from '../../src/sheets/batch/setup';
import { Action } from '../components/Action';
import { AskedEntry } from '../components/AskedEntry';
import { Choice } from '../components/Choice';
import { Entry } from '../components/Entry';
import { Field } from '../components/Field';
import { Further } from '../components/Further';
import { FurtherFields, ImageFields, ModelFields } from '../components/NewRun';
import { newRunOf } from '../run/newrun';
import type { FieldId } from '../setup/field';
import type { Store } from '../store';
import { AMBIENT_WORDS, BATCH_NUMBERS, type BatchNumber, numbersFor, READINGS_WORDS } from './form';
import type { BatchStep } from './state';

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

/** Most batches are as long as their list, and have their U from the budget. */
const SELDOM: ReadonlySet<BatchNumber> = new Set<BatchNumber>(['lines', 'whiteStated', 'colourStated']);

export interface BatchProps {
  readonly store: Store;
  readonly step: BatchStep;
}

/** Names, what is read, and the button that builds the sheet. */
export function NewBatch({ store, step }: BatchProps) {
  const { form } = newRunOf(store);
  const { understood, isAllShown } = step;
  const texts = step.texts.value;
  const { list, problems } = understood.value;
  const numbers = numbersFor(texts.readings);
  const centre = isCentre(texts.readings as BatchReadings);
  const field = (id: BatchNumber) => <BatchEntry key={id} step={step} id={id} />;
  return (
    <>
      <p class="quiet">Many units of one model in one mode, with one meter at one image size.</p>
      <Entry
        id="batch-title"
        label="Name of the batch"
        value={texts.title}
        hint="As the delivery note calls it."
        onType={(title) => step.type({ title })}
      />
      <div class="field">
        <label for="batch-units">Serial numbers, one a line</label>
        <textarea
          id="batch-units"
          rows={5}
          spellcheck={false}
          value={texts.units}
          aria-describedby="batch-units-note"
          onInput={(event) => step.type({ units: event.currentTarget.value })}
        />
        <div id="batch-units-note" class="under">
          {list.problems.length > 0 ? (
            <>
              <p class="error">These lines need another look:</p>
              <ul class="errors">
                {list.problems.map((problem) => (
                  <li key={problem}>{problem}</li>
                ))}
              </ul>
            </>
          ) : (
            <p class="hint">
              {step.unitsFrom.value && `${step.unitsFrom.value} `}
              {list.units.length === 1 ? '1 unit' : `${list.units.length} units`}. A place may follow behind a
              tab or a semicolon. Up to 5000 units.
            </p>
          )}
        </div>
      </div>
      <Choice
        id="batch-readings"
        label="What is read"
        value={texts.readings}
        choices={BATCH_READINGS.map((kind) => [kind, READINGS_WORDS[kind]])}
        hint={
          centre
            ? 'A centre reading says nothing of the rest of the image: results are parts of a reference unit that was measured in full.'
            : ''
        }
        onPick={(readings) => step.type({ readings })}
      />
      <Choice
        id="batch-ambient"
        label="Ambient light"
        value={texts.ambient}
        choices={BATCH_AMBIENTS.map((kind) => [kind, AMBIENT_WORDS[kind]])}
        onPick={(ambient) => step.type({ ambient })}
      />
      {centre && (
        <>
          <Entry
            id="batch-reference"
            label="Reference unit"
            value={texts.reference}
            hint="Serial number and run sheet of a unit measured in full."
            onType={(reference) => step.type({ reference })}
          />
          {store.workbook.reading.value && (
            <div>
              <Action onAct={step.takeReference}>
                Take it from the run “{store.workbook.reading.value.sheet}”
              </Action>
            </div>
          )}
        </>
      )}
      <ModelFields form={form} />
      <ImageFields form={form} />
      <Field form={form} id="meterUnit" />
      <div class="pair">{numbers.filter((id) => !SELDOM.has(id)).map(field)}</div>
      <Further
        title="The table"
        gist="more lines than units, a U that is stated"
        isOpen={numbers.some((id) => SELDOM.has(id) && texts[id].trim() !== '')}
      >
        <div class="pair">{numbers.filter((id) => SELDOM.has(id)).map(field)}</div>
      </Further>
      <FurtherFields store={store} isUsed={(id) => !UNUSED.has(id)} />
      {isAllShown.value && problems.length > 0 && (
        <div role="alert">
          <p class="error">The batch cannot be built yet:</p>
          <ul class="errors">
            {problems.map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </div>
      )}
      <Action isMain isOff={store.troubles.busy.value !== ''} onAct={() => void step.build()}>
        Build the batch sheet
      </Action>
    </>
  );
}

function BatchEntry({ step, id }: { readonly step: BatchStep; readonly id: BatchNumber }) {
  const { label, hint } = BATCH_NUMBERS[id];
  const text = step.texts.value[id];
  return (
    <AskedEntry
      id={`batch-${id}`}
      label={label}
      hint={hint}
      value={text}
      read={step.understood.value.numbers[id]}
      isShown={text.trim() !== ''}
      onType={(typed) => step.type({ [id]: typed })}
      onDecide={(mark) => step.decide(id, mark)}
    />
  );
}
