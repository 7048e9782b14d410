import { useSignal } from '@preact/signals';
import type { SheetReading } from '../../src/excel/host';
import { Choice } from '../components/Choice';
import figures from '../components/figures.module.css';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import { count } from '../parse/block';
import { Bars } from '../picture/Bars';
import { Picture, type PictureTable } from '../picture/Picture';
import type { BodyProps } from '../sheet/body';
import own from './ComparisonCard.module.css';
import { ResultBars } from './ResultBars';
import { compareOf } from './state';
import { type ComparedResult, comparisonView } from './view';

/** The comparison in front, as soon as it is read. */
export function ComparisonBody({ store }: BodyProps) {
  const { reading, trouble } = compareOf(store).followed;
  return (
    <>
      {trouble.value && <TroubleBox trouble={trouble.value} facts={store.facts} />}
      {reading.value && <ComparisonCard reading={reading.value} />}
    </>
  );
}

/** Bars with their doubt, and every two runs. */
function ComparisonCard({ reading }: { readonly reading: SheetReading }) {
  const view = comparisonView(reading);
  const picked = useSignal('White');
  const result = view.results.find(({ id }) => id === picked.value) ?? view.results[0];
  return (
    <section class={look.card} aria-labelledby="comparison-title">
      <h2 id="comparison-title">Comparison</h2>
      {view.differing.length > 0 && (
        <p class={look.error}>
          Function and plain formulas differ for the {view.differing.join(' and the ')}. Do not use it before
          the cause is found.
        </p>
      )}
      {!result && (
        <p class={look.quiet}>
          No run has a result yet: take their readings, and they stand here beside each other.
        </p>
      )}
      {result && view.results.length > 1 && (
        <Choice
          id="compare-what"
          label="Compare the"
          value={result.id}
          choices={view.results.map(({ id, label }) => [id, label])}
          onPick={(id) => {
            picked.value = id;
          }}
        />
      )}
      {result && (
        <Picture title={result.label} table={tableOf(result)} drawing={<Bars {...barsOf(result)} />}>
          <ResultBars result={result} />
        </Picture>
      )}
      {result && <Pairs result={result} />}
      {view.others.length > 0 && (
        <details class={figures.others}>
          <summary tabIndex={0}>Prices</summary>
          {view.names.map((name, i) => (
            <dl key={i} aria-label={name}>
              <div>
                <dt>
                  <strong>{name}</strong>
                </dt>
                <dd />
              </div>
              {view.others.map(({ label, texts }) => (
                <div key={label}>
                  <dt>{label}</dt>
                  <dd>{texts[i] || '–'}</dd>
                </div>
              ))}
            </dl>
          ))}
        </details>
      )}
    </section>
  );
}

function tableOf({ label, bars }: ComparedResult): PictureTable {
  return { head: ['run', label], rows: bars.map(({ name, text }) => [name, text]) };
}

function barsOf({ bars }: ComparedResult) {
  const lines = bars.flatMap(({ name, text, value, expanded }) =>
    value === undefined
      ? []
      : [{ label: name, text, value, ...(expanded === undefined ? {} : { expanded }) }],
  );
  return { lines, most: Math.max(...lines.map(({ value, expanded = 0 }) => value + expanded)) || 1 };
}

/** Signs beside the words, so that the two answers are told apart at a glance and not by colour. */
const SIGNS = { different: '≠', 'not distinguishable': '≈', '': '' } as const;

function Pairs({ result: { pairs, label } }: { readonly result: ComparedResult }) {
  if (pairs.length === 0)
    return (
      <p class={look.quiet}>
        No two runs have this result yet: choose another one above, or complete a second run.
      </p>
    );
  const different = pairs.filter(({ verdict }) => verdict === 'different').length;
  return (
    <section aria-labelledby="pairs-title">
      <h3 id="pairs-title">Is the difference real?</h3>
      <p class={look.sentence}>
        {different} of {count(pairs.length, 'pair')} differ by more than the doubt of their difference.
      </p>
      <ul class={own.pairs} aria-label={`Differences of ${label}`}>
        {pairs.map(({ name, text, verdict }, i) => (
          <li key={i}>
            <span class={own.sign} aria-hidden="true">
              {SIGNS[verdict]}
            </span>
            <span>
              {name}
              <br />
              <strong>{text}</strong>: {verdict}
            </span>
          </li>
        ))}
      </ul>
      <p class={look.quiet}>
        Not distinguishable does not mean equal: this measurement cannot tell them apart.
      </p>
    </section>
  );
}
