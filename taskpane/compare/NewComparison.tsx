import { LEAST_RUNS } from '../../src/sheets/comparison/run';
import { Action } from '../components/Action';
import { Choice } from '../components/Choice';
import look from '../components/look.module.css';
import { Tick } from '../components/Tick';
import type { Store } from '../store';
import { GROUPINGS, type Grouping } from './compared';
import own from './NewComparison.module.css';
import { compareOf } from './state';

/** Which runs to compare, what they share, and the button that builds the sheet. */
export function NewComparison({ store }: { readonly store: Store }) {
  const compare = compareOf(store);
  return (
    <section class={look.card} aria-labelledby="comparison-form-title">
      <h2 id="comparison-form-title">New comparison</h2>
      {compare.runs.value.length < LEAST_RUNS ? (
        <>
          <p class={look.quiet}>
            A comparison takes two runs; this workbook has {compare.runs.value.length === 0 ? 'none' : 'one'}{' '}
            yet.
          </p>
          <Action isMain onAct={() => store.open('run')}>
            Begin a run
          </Action>
        </>
      ) : (
        <Choices store={store} onBuild={compare.build} />
      )}
    </section>
  );
}

interface ChoicesProps {
  readonly store: Store;
  readonly onBuild: () => Promise<void>;
}

/** The runs, what they share, and the button. */
function Choices({ store, onBuild }: ChoicesProps) {
  const { troubles } = store;
  const compare = compareOf(store);
  const { runs, chosen, choices, objection } = compare;
  const { meters, images, digits, spectral } = choices.value;
  // Nothing is wrong yet while too few are chosen: that is how everybody begins.
  const isShort = chosen.value.length < LEAST_RUNS;
  return (
    <>
      <fieldset class={own.picks}>
        <legend>Runs</legend>
        {runs.value.map(({ sheet }, i) => (
          <Tick
            key={sheet}
            id={`compare-run-${i}`}
            isOn={chosen.value.includes(sheet)}
            onTick={() => compare.toggle(sheet)}
          >
            {sheet}
          </Tick>
        ))}
      </fieldset>
      <fieldset class={own.picks}>
        <legend>What the runs share</legend>
        <Grouped
          id="compare-meters"
          label="Meter"
          hint="By the meter’s name; without a name, each its own."
          value={meters}
          onChoose={(grouping) => compare.choose({ meters: grouping })}
        />
        <Grouped
          id="compare-images"
          label="Image"
          hint="By its size and place: one image measured once."
          value={images}
          onChoose={(grouping) => compare.choose({ images: grouping })}
        />
        <Tick id="compare-spectral" isOn={spectral} onTick={(isOn) => compare.choose({ spectral: isOn })}>
          Light sources of one kind: the meter errs alike in their colours
        </Tick>
        <Tick id="compare-digits" isOn={digits} onTick={(isOn) => compare.choose({ digits: isOn })}>
          Same ranges throughout: the meter’s ± digits are one offset
        </Tick>
        <p class={look.quiet}>
          What two runs share counts once in their difference. Each choice can be changed on the sheet, part
          by part.
        </p>
      </fieldset>
      <p class={isShort ? `${look.unfit} ${own.calm}` : look.unfit} role="status">
        {objection.value}
      </p>
      <Action
        isMain
        isOff={troubles.busy.value !== '' || objection.value !== ''}
        onAct={() => void onBuild()}
      >
        Build the comparison
      </Action>
    </>
  );
}

interface GroupedProps {
  readonly id: string;
  readonly label: string;
  readonly hint: string;
  readonly value: Grouping;
  readonly onChoose: (grouping: Grouping) => void;
}

function Grouped({ id, label, hint, value, onChoose }: GroupedProps) {
  return (
    <Choice
      id={id}
      label={label}
      hint={hint}
      value={value}
      choices={GROUPINGS.map((grouping) => [grouping, grouping])}
      onPick={(grouping) => onChoose(grouping as Grouping)}
    />
  );
}
