import { type FunctionRecord, wordsOf } from '../../src/functions/record';
import { FUNCTIONS, NAMESPACE } from '../../src/functions/table';
import look from '../components/look.module.css';
import own from './Functions.module.css';

/** Every custom function, from the same table that the spreadsheet program gets. */
export function Functions() {
  return (
    <section class={`${look.card} ${own.functions}`} aria-labelledby="functions-title">
      <h2 id="functions-title">Functions</h2>
      <p class={look.quiet}>
        Type them into any cell, in any sheet. A function that cannot give a result shows an error; the words
        behind it say which reading or argument is meant.
      </p>
      {FUNCTIONS.map((record) => (
        <Entry key={record.id} record={record} />
      ))}
    </section>
  );
}

function Entry({ record }: { readonly record: FunctionRecord }) {
  const { id, summary, params, result, formula, source, example } = record;
  return (
    <details class={own.function}>
      <summary tabIndex={0}>
        <code>
          {NAMESPACE}.{id}
        </code>
        <span class={`${look.quiet} ${own.gist}`}>{summary}</span>
      </summary>
      <dl>
        {params.map(({ name, description, unit, isOptional, choices }) => (
          <div key={name}>
            <dt>
              {wordsOf(name)}
              {isOptional && <span class={look.needed}> (may be left out)</span>}
            </dt>
            <dd>
              {description}
              {unit ? `, ${unit.startsWith('in ') ? '' : 'in '}${unit}` : ''}
              {choices ? `: ${choices.values.join(', ')}` : ''}
            </dd>
          </div>
        ))}
        <div>
          <dt>Gives</dt>
          <dd>
            a {result.kind}
            {result.unit ? `, in ${result.unit}` : ''}
          </dd>
        </div>
        <div>
          <dt>Formula</dt>
          <dd>{formula}</dd>
        </div>
        <div>
          <dt>Source</dt>
          <dd>{source}</dd>
        </div>
        <div>
          <dt>Example</dt>
          <dd>
            <code>{example}</code>
          </dd>
        </div>
      </dl>
    </details>
  );
}
