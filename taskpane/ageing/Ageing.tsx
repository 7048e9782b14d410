import { Build } from '../components/Build';
import { Fields } from '../components/Field';
import look from '../components/look.module.css';
import { PerSheet } from '../components/PerSheet';
import type { Store } from '../store';
import { Answer } from './Answer';
import { UNIT, type UnitField } from './form';
import { Lines } from './Lines';
import { ageingOf } from './state';

const FIELDS = Object.keys(UNIT) as UnitField[];

/** One unit over the hours of its light source. */
export function Ageing({ store }: { readonly store: Store }) {
  const ageing = ageingOf(store);
  const { unit, runs, sheets, report } = ageing;
  return (
    <>
      <section class={look.card} aria-labelledby="ageing-unit">
        <h2 id="ageing-unit">Ageing of a unit</h2>
        <PerSheet
          id="ageing-sheet"
          label="Ageing sheet"
          sheets={sheets.value.map(({ sheet }) => sheet)}
          onAct={(sheet) => void ageing.takeSheet(sheet)}
        >
          {(sheet) => `Take over what is on “${sheet}”`}
        </PerSheet>
        <Fields form={unit} ids={FIELDS} />
      </section>
      <section class={look.card} aria-labelledby="ageing-lines">
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
      <Answer points={ageing.points.value} found={ageing.answer.value} />
      <section class={look.card} aria-labelledby="ageing-build">
        <h2 id="ageing-build">Sheet</h2>
        <p class={look.quiet}>
          The sheet holds the measurements, computes all of this twice and takes further measurements.
        </p>
        <Build isOff={store.troubles.busy.value !== ''} report={report.value} onBuild={ageing.build}>
          Build the ageing sheet
        </Build>
      </section>
    </>
  );
}
