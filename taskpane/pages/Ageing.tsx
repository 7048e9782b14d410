import '../need/need.css';
import '../ageing/ageing.css';
import { Answer } from '../ageing/Answer';
import type { AgeingNumber, AgeingTexts } from '../ageing/form';
import { Lines } from '../ageing/Lines';
import { ageingOf } from '../ageing/state';
import { Build } from '../components/Build';
import { Entry } from '../components/Entry';
import { PerSheet } from '../components/PerSheet';
import { RetypedEntry } from '../components/RetypedEntry';
import type { Store } from '../store';

const FIELDS: readonly {
  id: keyof AgeingTexts;
  label: string;
  hint?: string;
}[] = [
  { id: 'projector', label: 'Projector' },
  { id: 'serial', label: 'Serial number' },
  { id: 'mode', label: 'Picture mode', hint: 'One and the same for every measurement.' },
  {
    id: 'needed',
    label: 'Light the room needs, lm',
    hint: 'Without the reserve for ageing. May stay empty.',
  },
  {
    id: 'stated',
    label: 'Initial light output if stated, lm',
    hint: 'Empty: the first measurement counts as initial.',
  },
  { id: 'hoursPerYear', label: 'Hours of use a year' },
  { id: 'level', label: 'Level of confidence, %' },
];

/** One unit over the hours of its light source. */
export function Ageing({ store }: { readonly store: Store }) {
  const ageing = ageingOf(store);
  const { texts, understood, isAllShown, runs, sheets, report } = ageing;
  return (
    <>
      <section class="card" aria-labelledby="ageing-unit">
        <h2 id="ageing-unit">Ageing of a unit</h2>
        <PerSheet
          id="ageing-sheet"
          label="Ageing sheet"
          sheets={sheets.value.map(({ sheet }) => sheet)}
          onAct={(sheet) => void ageing.takeSheet(sheet)}
        >
          {(sheet) => `Take over what is on “${sheet}”`}
        </PerSheet>
        {FIELDS.map(({ id, label, hint }) => {
          const common = {
            id: `ageing-${id}`,
            label,
            hint,
            value: texts.value[id],
            onType: (text: string) => ageing.type(id, text),
          };
          const problem =
            isAllShown.value || texts.value[id].trim() !== '' ? understood.value.problems[id] : undefined;
          return isNumber(id) ? (
            <RetypedEntry key={id} {...common} read={understood.value.numbers[id]} problem={problem} />
          ) : (
            <Entry key={id} {...common} error={problem} />
          );
        })}
      </section>
      <section class="card" aria-labelledby="ageing-lines">
        <h2 id="ageing-lines">Measurements</h2>
        <PerSheet
          id="ageing-run"
          label="Run"
          sheets={runs.value.map(({ sheet }) => sheet)}
          onAct={(sheet) => void ageing.takeRun(sheet)}
        >
          {(sheet) => `Take the result of “${sheet}”`}
        </PerSheet>
        <Lines ageing={ageing} />
      </section>
      <Answer points={understood.value.setup.points} found={ageing.answer.value} />
      <section class="card" aria-labelledby="ageing-build">
        <h2 id="ageing-build">Sheet</h2>
        <p class="quiet">
          The sheet holds the measurements, computes all of this twice and takes further measurements.
        </p>
        <Build isOff={store.troubles.busy.value !== ''} report={report.value} onBuild={ageing.build}>
          Build the ageing sheet
        </Build>
      </section>
    </>
  );
}

function isNumber(id: keyof AgeingTexts): id is AgeingNumber {
  return id === 'needed' || id === 'stated' || id === 'hoursPerYear' || id === 'level';
}
