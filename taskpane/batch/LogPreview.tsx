import { classOf, textOf } from '../components/entrylook';
import { shown } from '../parse/quantity';
import type { LogRow } from './logrows';

/** More is scrolled past, not read. Lines with a problem come first. */
const SHOWN = 20;
/** Problems told in full; more are counted. */
const TOLD = 30;

/** The lines as they will be taken, and what stands in the way of the others. */
export function LogPreview({ rows }: { readonly rows: readonly LogRow[] }) {
  const bad = rows.filter(({ problems }) => problems.length > 0);
  const problems = bad.flatMap((row) => row.problems);
  const seen = [...bad, ...rows.filter((row) => !bad.includes(row))].slice(0, SHOWN);
  const width = Math.max(...seen.map(({ entries }) => entries.length));
  const hasField = rows.some(({ field }) => field !== undefined);
  const hasRange = rows.some(({ range }) => range !== undefined);
  return (
    <>
      {/* A table wider than the pane scrolls by itself, and by keyboard. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard. */}
      <section class="wide" tabIndex={0} aria-label="Preview of the log">
        <table class="preview offers">
          <caption>
            {rows.length > SHOWN
              ? `${SHOWN} of ${rows.length} lines${bad.length > 0 ? ', those with problems first' : ''}`
              : 'As understood'}
          </caption>
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">Unit</th>
              {hasField && <th scope="col">Field</th>}
              {hasRange && <th scope="col">Range</th>}
              {Array.from({ length: width }, (_, i) => (
                <th key={i} scope="col">
                  {i + 1}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {seen.map((row) => (
              <tr key={row.line}>
                <th scope="row">
                  {row.line} {row.problems.length > 0 ? '\u2717' : ''}
                </th>
                <td class={row.target === undefined ? 'bad' : ''}>
                  {row.serial || '\u2013'}
                  {row.isNew ? ' (new)' : ''}
                </td>
                {hasField && <td>{row.field ?? '\u2717'}</td>}
                {hasRange && <td>{row.range === undefined ? '\u2013' : `\u00d7 ${shown(row.range)}`}</td>}
                {row.entries.map((entry, i) => (
                  <td key={i} class={classOf(entry)} title={entry.where}>
                    {textOf(entry)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <div role="status">
        {problems.length > 0 && (
          <p class="error">
            {bad.length === 1 ? 'One line cannot be taken:' : `${bad.length} lines cannot be taken:`}
          </p>
        )}
        <ul class="errors">
          {problems.slice(0, TOLD).map((problem, i) => (
            <li key={i}>{problem}</li>
          ))}
          {problems.length > TOLD && <li>And {problems.length - TOLD} more like these.</li>}
        </ul>
      </div>
    </>
  );
}
