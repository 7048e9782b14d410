import { whole } from '../../../src/procurement/wording/format';
import { Action } from '../../components/Action';
import look from '../../components/look.module.css';
import type { Opinion } from '../../simulation/opinion';
import { secondOpinionOf } from '../../simulation/state';
import { type ComparisonRow, compareOpinion } from '../../simulation/verdict';
import type { Store } from '../../store';
import type { SureFigure } from '../sure';

export interface SecondOpinionProps {
  readonly store: Store;
  readonly figures: readonly SureFigure[];
}

/** A button that computes the run afresh and simulates it, and what came of it beside the sheet's figures. */
export function SecondOpinion({ store, figures }: SecondOpinionProps) {
  const { progress, opinion, isStale, problem, ask, cancel } = secondOpinionOf(store);
  const done = progress.value;
  const percent = done === undefined ? 0 : Math.floor(100 * done);
  return (
    <section aria-labelledby="opinion-title">
      <h3 id="opinion-title">Second opinion</h3>
      {done === undefined ? (
        <Action onAct={() => void ask()}>Check by simulation</Action>
      ) : (
        <>
          <progress max={1} value={done} aria-label="trials simulated" />
          <p class={look.quiet}>{percent} % of a million trials</p>
          <Action onAct={cancel}>Cancel</Action>
        </>
      )}
      <p class={look.quiet} role="status">
        {isStale.value && done === undefined ? 'The sheet has changed since it was checked.' : ''}
      </p>
      {problem.value && (
        <p class={look.error} role="alert">
          {problem.value}
        </p>
      )}
      {opinion.value && done === undefined && <Answer opinion={opinion.value} figures={figures} />}
    </section>
  );
}

function Answer({
  opinion,
  figures,
}: {
  readonly opinion: Opinion;
  readonly figures: readonly SureFigure[];
}) {
  const { rows, verdict, agrees, remarks } = compareOpinion(opinion, figures);
  return (
    <>
      <p class={agrees ? look.done : look.error} role="status">
        {verdict}
      </p>
      {remarks.map((remark) => (
        <p key={remark} class={look.sentence}>
          {remark}
        </p>
      ))}
      {rows.map((row) => (
        <Row key={row.id} row={row} />
      ))}
      <p class={look.quiet}>
        {whole(opinion.trials)} trials, seed {opinion.seed}; intervals hold{' '}
        {Number((100 * opinion.level).toFixed(4))} %. The model knows nothing of the sheet’s formulas: it
        starts from the readings (JCGM 101).
      </p>
    </>
  );
}

function Row({ row }: { readonly row: ComparisonRow }) {
  const { label, unit, sheet, value, u, expanded, simulatedU, symmetric, shortest, tolerance } = row;
  // One digit more than the ends of the intervals are compared to.
  const places = tolerance > 0 ? Math.min(9, Math.max(0, 1 - Math.round(Math.log10(2 * tolerance)))) : 1;
  const show = (n: number) => n.toFixed(places);
  const lines: readonly (readonly [string, number | undefined, number, number])[] = [
    ...(sheet
      ? ([['sheet', sheet.u, sheet.value - sheet.expanded, sheet.value + sheet.expanded]] as const)
      : []),
    ['model', u, value - expanded, value + expanded],
    ['simulation, symmetric', simulatedU, symmetric.low, symmetric.high],
    ['simulation, shortest', undefined, shortest.low, shortest.high],
  ];
  return (
    <table class={look.beside}>
      <caption>
        {label}
        {unit && `, ${unit}`}
      </caption>
      <thead>
        <tr>
          <td />
          <th scope="col">u</th>
          <th scope="col">from</th>
          <th scope="col">to</th>
        </tr>
      </thead>
      <tbody>
        {lines.map(([name, uncertainty, low, high]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{uncertainty === undefined ? '' : show(uncertainty)}</td>
            <td>{show(low)}</td>
            <td>{show(high)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
