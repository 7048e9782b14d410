import type { Block } from '../parse/block';
import type { Entry } from '../parse/cell';
import { shown } from '../parse/quantity';

/** The pasted readings laid out as on the screen. */
export function PastePreview({ blocks }: { readonly blocks: readonly Block[] }) {
  return (
    <div class="previews">
      {blocks.map(({ target, entries }) => (
        <table key={target.name} class="preview">
          <caption>{target.label}</caption>
          <tbody>
            {entries.map((row, r) => (
              // Rows of a grid have no other identity than their place.
              <tr key={r}>
                {row.map((entry) => (
                  <td key={entry.where} class={classOf(entry)} title={entry.where}>
                    {textOf(entry)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </div>
  );
}

function classOf({ kind }: Entry): string {
  if (kind === 'refused') return 'bad';
  return kind === 'decimal?' || kind === 'one?' ? 'asked' : kind;
}

/** What will stand in the cell; what cannot, stands as it came, with a mark that does not rely on colour. */
function textOf(entry: Entry): string {
  switch (entry.kind) {
    case 'number':
      return shown(entry.value);
    case 'over':
      return 'over';
    case 'empty':
      return '\u2013';
    case 'refused':
      return `\u2717 ${entry.text}`;
    default:
      return `? ${entry.text}`;
  }
}
