import { useSignal } from '@preact/signals';
import { BATCH_READINGS } from '../../src/procurement/batch/columns';
import { Action } from '../components/Action';
import { Choice as ChoiceField } from '../components/Choice';
import { Entry } from '../components/Entry';
import { Fold } from '../components/Fold';
import { Report } from '../components/Report';
import type { Store } from '../store';
import { applies, type Choice } from './choice';
import type { TemplatesStep } from './state';

interface Props {
  readonly store: Store;
  readonly step: TemplatesStep;
}

const RUNS: readonly (readonly [Choice['runs'], string])[] = [
  ['none', 'none'],
  ['rooms', 'one for each room'],
  ['sample', 'one for each unit drawn from the lot'],
  ['list', 'one for each unit of a list'],
];
const AGEING: readonly (readonly [Choice['ageing'], string])[] = [
  ['none', 'none'],
  ['one', 'one'],
  ['each unit', 'one for each run'],
];

/** Saves what stands in the forms, or on the sheets of a bid that was done, with the choice of sheets to build from it. */
export function SaveCard({ store, step }: Props) {
  const isOpen = useSignal(false);
  const { title, note, draft, isAllShown, collected, otherWords } = step;
  const problems = 'format' in draft.value ? [] : draft.value;
  const there = step.keeping.titled(title.value);
  const name = title.value.trim();
  return (
    <Fold
      title="Save the set-up as a template"
      gist="rooms, meter, rule, words, sheets"
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <Action isOff={store.troubles.busy.value !== ''} onAct={() => void step.takeSheets()}>
        Take everything from the sheets of this workbook
      </Action>
      <Report words={step.takenFrom.value} />
      <p class="quiet">What stands in the forms now goes into the template:</p>
      <ul class="taken">
        {collected.value.taken.map((sentence) => (
          <li key={sentence}>{sentence}.</li>
        ))}
      </ul>
      {otherWords.value && (
        <Tick
          id="templates-words"
          label={`Keep the words of “${otherWords.value.sheet}” where they differ from those of the form: ${otherWords.value.parts.join(', ')}`}
          isOn={step.keepsWords.value}
          onTick={step.keepWords}
        />
      )}
      <Entry
        id="templates-title"
        label="Title"
        value={title.value}
        error={isAllShown.value && name === '' ? 'The template needs a title.' : undefined}
        onType={step.typeTitle}
      />
      <div class="field">
        <label for="templates-note">Note</label>
        <textarea
          id="templates-note"
          class="words"
          rows={2}
          maxLength={500}
          value={note.value}
          onInput={(event) => step.typeNote(event.currentTarget.value)}
        />
      </div>
      <Sheets step={step} />
      {isAllShown.value && problems.length > 0 && (
        <ul class="error-list">
          {problems.map((problem) => (
            <li key={problem} class="error">
              {problem}
            </li>
          ))}
        </ul>
      )}
      <Action isMain isOff={store.troubles.busy.value !== ''} onAct={() => void step.save()}>
        {there ? `Replace the template “${name}”` : 'Save the template'}
      </Action>
      <p class="quiet" role="status">
        {isAllShown.value && problems.length > 0 && 'Nothing was saved yet.'}
      </p>
    </Fold>
  );
}

/** Which sheets are built from it. What does not apply is not shown. */
function Sheets({ step }: { readonly step: TemplatesStep }) {
  const choice = step.choice.value;
  const problems = step.choiceProblems.value;
  const is = (id: keyof Choice) => applies(choice, id);
  const tick = (id: keyof Choice, label: string) =>
    is(id) && (
      <Tick
        id={`templates-${id}`}
        label={label}
        isOn={choice[id] === true}
        onTick={(isOn) => step.choose({ [id]: isOn })}
      />
    );
  const pick = <T extends string>(
    id: keyof Choice,
    label: string,
    choices: readonly (readonly [T, string])[],
  ) => (
    <ChoiceField
      id={`templates-${id}`}
      label={label}
      value={choice[id] as string}
      choices={choices}
      onPick={(value) => step.choose({ [id]: value })}
    />
  );
  const count = (id: 'lines' | 'batchLines', label: string) =>
    is(id) && (
      <Entry
        id={`templates-${id}`}
        label={label}
        type="number"
        value={choice[id]}
        error={problems[id]}
        onType={(text) => step.choose({ [id]: text })}
      />
    );
  return (
    <fieldset class="sheets">
      <legend>Sheets to build</legend>
      {tick('need', 'Need, one line a room')}
      {tick('offers', 'Offers, asked figures linked to the need')}
      {count('lines', 'Empty lines for offers')}
      {pick('runs', 'Run sheets', RUNS)}
      {is('units') && (
        <div class="field">
          <label for="templates-units">Units, one a line</label>
          <textarea
            id="templates-units"
            rows={3}
            spellcheck={false}
            value={choice.units}
            aria-invalid={step.isAllShown.value && problems.units !== undefined}
            aria-describedby="templates-units-note"
            onInput={(event) => step.choose({ units: event.currentTarget.value })}
          />
          <div id="templates-units-note" class="under">
            {step.isAllShown.value && problems.units && <p class="error">{problems.units}</p>}
          </div>
        </div>
      )}
      {tick('comparison', 'Comparison of the runs')}
      {tick('certificates', 'A certificate of each run')}
      {tick('spot', 'Spot check of their units')}
      {tick('batch', 'Batch, one line a unit')}
      {is('readings') &&
        pick(
          'readings',
          'What is read of each unit',
          BATCH_READINGS.map((each) => [each, each] as const),
        )}
      {count('batchLines', 'Lines of the batch')}
      {tick('rated', 'Rated figures linked to the offer chosen on the offers sheet')}
      {tick(
        'acceptance',
        choice.offers
          ? 'Acceptance of the lot, limits linked to the chosen offer'
          : 'Acceptance of the lot, limits linked to the need',
      )}
      {pick('ageing', 'Ageing sheets', choice.runs === 'none' ? AGEING.slice(0, 2) : AGEING)}
      {tick('overview', 'Overview of the workbook')}
    </fieldset>
  );
}

interface TickProps {
  readonly id: string;
  readonly label: string;
  readonly isOn: boolean;
  readonly onTick: (isOn: boolean) => void;
}

function Tick({ id, label, isOn, onTick }: TickProps) {
  return (
    <label class="tick" for={id}>
      <input
        id={id}
        type="checkbox"
        checked={isOn}
        onChange={(event) => onTick(event.currentTarget.checked)}
      />
      {label}
    </label>
  );
}
