import '../ageing/ageing.css';
import { Answer } from '../ageing/Answer';
import type { AgeingTexts } from '../ageing/form';
import { Lines } from '../ageing/Lines';
import { ageingOf } from '../ageing/state';
import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import type { Store } from '../store';

const FIELDS: readonly {
  id: keyof AgeingTexts;
  label: string;
  type: 'text' | 'number';
  hint?: string;
}[] = [
  { id: 'projector', label: 'Projector', type: 'text' },
  { id: 'serial', label: 'Serial number', type: 'text' },
  { id: 'mode', label: 'Picture mode', type: 'text', hint: 'One and the same for every measurement.' },
  {
    id: 'needed',
    label: 'Light the room needs, lm',
    type: 'number',
    hint: 'Without the reserve for ageing. May stay empty.',
  },
  {
    id: 'stated',
    label: 'Initial light output if stated, lm',
    type: 'number',
    hint: 'Empty: the first measurement counts as initial.',
  },
  { id: 'hoursPerYear', label: 'Hours of use a year', type: 'number' },
  { id: 'level', label: 'Level of confidence, %', type: 'number' },
];

/** One unit over the hours of its light source. */
export function Ageing({ store }: { readonly store: Store }) {
  const ageing = ageingOf(store);
  const { texts, understood, isAllShown, runs, sheets, report } = ageing;
  return (
    <>
      <section class="card" aria-labelledby="ageing-unit">
        <h2 id="ageing-unit">Ageing of a unit</h2>
        {sheets.value.map(({ sheet }) => (
          <Action key={sheet} onAct={() => void ageing.takeSheet(sheet)}>
            Take over what is on “{sheet}”
          </Action>
        ))}
        {FIELDS.map(({ id, label, type, hint }) => (
          <Entry
            key={id}
            id={`ageing-${id}`}
            label={label}
            type={type}
            value={texts.value[id]}
            hint={hint}
            error={
              isAllShown.value || texts.value[id].trim() !== '' ? understood.value.problems[id] : undefined
            }
            onType={(text) => ageing.type(id, text)}
          />
        ))}
      </section>
      <section class="card" aria-labelledby="ageing-lines">
        <h2 id="ageing-lines">Measurements</h2>
        {runs.value.map(({ sheet }) => (
          <Action key={sheet} onAct={() => void ageing.takeRun(sheet)}>
            Take the result of “{sheet}”
          </Action>
        ))}
        <Lines ageing={ageing} />
      </section>
      <Answer ageing={ageing} />
      <section class="card" aria-labelledby="ageing-build">
        <h2 id="ageing-build">Sheet</h2>
        <p class="quiet">
          The sheet holds the measurements, computes all of this twice and takes further measurements.
        </p>
        <Action isMain isOff={store.troubles.busy.value !== ''} onAct={() => void ageing.build()}>
          Build the ageing sheet
        </Action>
        <p class="done" role="status">
          {report.value}
        </p>
      </section>
    </>
  );
}
