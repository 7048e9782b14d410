import { entryLook, textOf } from '../../components/entrylook';
import look from '../../components/look.module.css';
import type { Block } from '../../parse/block';
import own from './PastePreview.module.css';

/** The pasted readings laid out as on the screen. */
export function PastePreview({ blocks }: { readonly blocks: readonly Block[] }) {
  return (
    <div class={own.previews}>
      {blocks.map(({ target, entries }) => (
        <table key={target.name} class={`${look.preview} ${own.grid}`}>
          <caption>{target.label}</caption>
          <tbody>
            {entries.map((row, r) => (
              // Rows of a grid have no other identity than their place.
              <tr key={r}>
                {row.map((entry) => (
                  <td key={entry.where} data-entry={entryLook(entry)} title={entry.where}>
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
