import type { EntryLook } from '../components/entrylook';
import look from '../components/look.module.css';
import own from './LinesPreview.module.css';

/** More is scrolled past, not read. */
const SHOWN = 20;
/** Problems told in full; more are counted. */
const TOLD = 30;

interface PreviewCell {
  readonly text: string;
  readonly look?: EntryLook;
  readonly title?: string;
}

/** One row of an import as it will be taken. */
interface PreviewRow {
  /** Its line in the text, or its lines: "3", "2 to 10". */
  readonly line: string;
  readonly cells: readonly PreviewCell[];
  /** Why it cannot be taken, each a whole sentence that begins with the line. */
  readonly problems: readonly string[];
}

export interface LinesPreviewProps {
  /** "Preview of the offers" */
  readonly label: string;
  readonly heads: readonly string[];
  readonly rows: readonly PreviewRow[];
}

/** The lines as they will be taken, and what stands in the way of the others. */
export function LinesPreview({ label, heads, rows }: LinesPreviewProps) {
  const bad = rows.filter(({ problems }) => problems.length > 0);
  const problems = bad.flatMap((row) => row.problems);
  const isLong = rows.length > SHOWN;
  const seen = isLong ? [...bad, ...rows.filter((row) => !bad.includes(row))].slice(0, SHOWN) : rows;
  return (
    <>
      {/* A table wider than the pane scrolls by itself, and by keyboard. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard. */}
      <section class={own.wide} tabIndex={0} aria-label={label}>
        <table class={`${look.preview} ${own.lines}`}>
          <caption>
            {isLong
              ? `${SHOWN} of ${rows.length} lines${bad.length > 0 ? ', those with problems first' : ''}`
              : 'As understood'}
          </caption>
          <thead>
            <tr>
              <th scope="col">Line</th>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {head}
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
                {row.cells.map(({ text, title, look: entry }, i) => (
                  <td key={heads[i]} data-entry={entry} title={title}>
                    {text}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <div role="status">
        {bad.length > 0 && (
          <p class={look.error}>
            {bad.length === 1 ? 'One line cannot be taken:' : `${bad.length} lines cannot be taken:`}
          </p>
        )}
        <ul class={look.errors}>
          {problems.slice(0, TOLD).map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
          {problems.length > TOLD && <li>And {problems.length - TOLD} more like these.</li>}
        </ul>
      </div>
    </>
  );
}
