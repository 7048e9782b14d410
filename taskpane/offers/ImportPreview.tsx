import { OFFER_FIELDS, OFFER_IDS } from './fields';
import { type Imported, sentence } from './rows';

/** More is scrolled past, not read; the errors are told in full. */
const SHOWN = 20;

/** The rows as they will be taken, and every cell that cannot be. */
export function ImportPreview({ imported }: { readonly imported: Imported }) {
  const { rows, errors } = imported;
  const used = OFFER_IDS.filter((id) => rows.some(({ texts }) => texts[id] !== ''));
  return (
    <>
      {/* A table wider than the pane scrolls by itself, and by keyboard. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard. */}
      <section class="wide" tabIndex={0} aria-label="Preview of the offers">
        <table class="preview offers">
          <caption>
            {rows.length > SHOWN ? `The first ${SHOWN} of ${rows.length} lines` : 'As understood'}
          </caption>
          <thead>
            <tr>
              <th scope="col">Line</th>
              {used.map((id) => (
                <th key={id} scope="col">
                  {OFFER_FIELDS[id].label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, SHOWN).map(({ line, texts, bad, offer }) => (
              <tr key={line}>
                <th scope="row">
                  {line} {offer ? '' : '\u2717'}
                </th>
                {used.map((id) => (
                  <td key={id} class={bad.includes(id) ? 'bad' : ''}>
                    {bad.includes(id) ? `\u2717 ${texts[id] || 'nothing'}` : shownAs(offer?.[id], texts[id])}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <div role="status">
        {errors.length > 0 && (
          <p class="error">
            {errors.length === 1 ? 'One cell cannot be taken:' : `${errors.length} cells cannot be taken:`}
          </p>
        )}
        <ul class="errors">
          {errors.map((error) => (
            <li key={`${error.line} ${error.column}`}>{sentence(error)}</li>
          ))}
        </ul>
      </div>
    </>
  );
}

function shownAs(value: string | number | undefined, text: string): string {
  if (value === undefined) return text || '\u2013';
  return String(value);
}
