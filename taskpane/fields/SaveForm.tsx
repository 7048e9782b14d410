import { useState } from 'preact/hooks';
import { isFieldId, TEST_FIELDS } from '../../src/fields/field';
import type { Format } from '../../src/fields/filename';
import type { Size } from '../../src/fields/mark';
import { parseSize, RESOLUTIONS, sizeText } from '../../src/fields/size';
import { explain } from '../../src/photometry/outcome';
import { Arrival } from '../saving/Arrival';
import { spaced } from '../saving/download';
import { createSaving, handOver, isText, type SavedFile, type TextFile } from '../saving/saving';
import look from './fields.module.css';
import { fieldFile, OTHERWISE } from './save';

const TYPED = 'typed';
const ALL = 'all';

/** The fields as files for a projector that reads a USB stick. `screen` is this window's size. */
export function SaveForm({ screen }: { readonly screen: Size | undefined }) {
  const [which, setWhich] = useState<string>(ALL);
  const [chosen, setChosen] = useState('1920 × 1080');
  const [typed, setTyped] = useState('');
  const [format, setFormat] = useState<Format>('png');
  const [said, setSaid] = useState('');
  const [saving] = useState(() => createSaving());
  const [isBusy, setBusy] = useState(false);
  const size = parseSize(chosen === TYPED ? typed : chosen);
  const isWrong = chosen === TYPED && typed !== '' && !size.ok;

  const save = async () => {
    if (isBusy) return;
    if (!size.ok) return setSaid(explain(size.problems));
    const fields = TEST_FIELDS.filter(({ id }) => which === ALL || id === which);
    setBusy(true);
    saving.clear();
    setSaid(`Making ${count(fields.length)} …`);
    try {
      // One after another: a picture at 3840 × 2160 takes 33 MB while it is made.
      let last: SavedFile | undefined;
      let handed = Number.NEGATIVE_INFINITY;
      for (const { id } of fields) {
        last = await fieldFile(id, size.value, format);
        await spaced(handed);
        handOver(last);
        handed = performance.now();
      }
      setSaid(`${count(fields.length)} of ${sizeText(size.value)} pixels.`);
      if (last) saving.ask(fields.length > 1 && isText(last) ? manyOf(last) : last, fields.length);
    } catch (error) {
      setSaid(error instanceof Error ? error.message : String(error));
    }
    setBusy(false);
  };

  return (
    <section class={look.save} aria-labelledby="save">
      <h2 id="save">Save for a USB stick</h2>
      <p>
        For a projector that shows pictures from a stick. Choose its native resolution, and on the projector
        show the files without zoom, slide effect or picture correction. PNG keeps every pixel; SVG only where
        the viewer draws it at its own size. The files hold full-range values. If several are saved, the
        browser may ask once whether it may.
      </p>
      <div>
        <label for="save-field">Field</label>
        <select id="save-field" value={which} onChange={(event) => setWhich(pick(event.currentTarget.value))}>
          <option value={ALL}>All {TEST_FIELDS.length}</option>
          {TEST_FIELDS.map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
        </select>
      </div>
      <div>
        <label for="save-size">Resolution</label>
        <select id="save-size" value={chosen} onChange={(event) => setChosen(event.currentTarget.value)}>
          {RESOLUTIONS.map(sizeText).map((text) => (
            <option key={text} value={text}>
              {text}
            </option>
          ))}
          {screen && <option value={sizeText(screen)}>this window, {sizeText(screen)}</option>}
          <option value={TYPED}>another, typed</option>
        </select>
      </div>
      {chosen === TYPED && (
        <div>
          <label for="save-typed">Width x height, pixels</label>
          <input
            id="save-typed"
            type="text"
            value={typed}
            placeholder="1920 x 1080"
            aria-invalid={isWrong}
            aria-describedby="saved"
            onInput={(event) => setTyped(event.currentTarget.value)}
          />
        </div>
      )}
      <div>
        <label for="save-format">Format</label>
        <select
          id="save-format"
          value={format}
          onChange={(event) => setFormat(event.currentTarget.value as Format)}
        >
          <option value="png">PNG</option>
          <option value="svg">SVG</option>
        </select>
      </div>
      <button type="button" aria-disabled={isBusy} onClick={() => void save()}>
        Save
      </button>
      <p id="saved" role="status">
        {isWrong && !size.ok ? explain(size.problems) : said}
      </p>
      <Arrival saving={saving} />
    </section>
  );
}

/** The text of one file stands for itself only. */
function manyOf({ name, type, text }: TextFile): SavedFile {
  return { name, type, contents: text, otherwise: OTHERWISE };
}

function pick(value: string): string {
  return isFieldId(value) ? value : ALL;
}

function count(files: number): string {
  return files === 1 ? '1 file' : `${files} files`;
}
