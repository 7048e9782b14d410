import type { Block } from '../parse/block';
import { classOf, textOf } from './entrylook';

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
