import { useSignal } from '@preact/signals';
import { isOverRange } from '../../../src/photometry/overrange';
import { Choice } from '../../components/Choice';
import { Further } from '../../components/Further';
import look from '../../components/look.module.css';
import { Bars } from '../../picture/Bars';
import { HeatMap } from '../../picture/HeatMap';
import { Picture } from '../../picture/Picture';
import type { Store } from '../../store';
import type { FieldProgress } from '../progress';
import type { RunView } from '../view';

/** One field after the other as it lies on the screen, with its readings. */
export function FieldsAsRead({ store, run }: { readonly store: Store; readonly run: RunView }) {
  const picked = useSignal('');
  const fields = run.fields.filter(({ filled, of }) => filled > 0 && of > 1);
  const shown = fields.find(({ field }) => field.name === picked.value) ?? fields.find(isWhite) ?? fields[0];
  if (!shown) return null;
  return (
    <section class={look.card} aria-labelledby="fields-title">
      <h2 id="fields-title" class={look.spoken}>
        The fields as read
      </h2>
      <Further title="The fields as read" gist="darker where there is more light">
        <Choice
          id="fields-which"
          label="Field"
          value={shown.field.name}
          choices={fields.map(({ field }) => [field.name, field.label])}
          onPick={(name) => {
            picked.value = name;
          }}
        />
        <FieldAsRead store={store} progress={shown} />
      </Further>
      <ColourShares run={run} />
    </section>
  );
}

/** What red, green and blue have of the colour light, beside what a signal standard gives them. */
function ColourShares({ run }: { readonly run: RunView }) {
  const part = (name: string) => run.results.find((result) => result.name === name)?.value;
  const lines = (['Red', 'Green', 'Blue'] as const).flatMap((colour) => {
    const [share, standard] = [part(`${colour}Share`), part(`${colour}ShareStandard`)];
    return share === undefined ? [] : [{ colour: colour.toLowerCase(), share, standard }];
  });
  if (lines.length < 3) return null;
  const percent = (share: number | undefined) =>
    share === undefined ? 'not known' : `${(100 * share).toFixed(1)} %`;
  return (
    <Further title="Shares of the colours" gist="beside those of a standard white">
      <Picture
        title="Shares of the colours"
        table={{
          head: ['colour', 'share', 'standard white'],
          rows: lines.map(({ colour, share, standard }) => [colour, percent(share), percent(standard)]),
        }}
      >
        <Bars
          most={1}
          lines={lines.map(({ colour, share, standard }) => ({
            label: colour,
            text: `${percent(share)}, standard ${percent(standard)}`,
            value: share,
          }))}
        />
      </Picture>
      <p class={look.quiet}>A lux meter tells shares of light, not hues.</p>
    </Further>
  );
}

const isWhite = ({ field }: FieldProgress) => field.name === 'WhiteReadings';

function FieldAsRead({
  store,
  progress: { field },
}: {
  readonly store: Store;
  readonly progress: FieldProgress;
}) {
  const values = store.workbook.reading.value?.values[field.name]?.values ?? [];
  const read = values.map((row) => row.map((value) => (typeof value === 'number' ? value : null)));
  const numbers = read.flat().filter((value) => value !== null);
  const words = `${field.label}, as on the display: from ${Math.min(...numbers)} to ${Math.max(...numbers)}.`;
  if (numbers.length === 0)
    return <p class={look.quiet}>No number is there yet: take readings, or type them on the sheet.</p>;
  return (
    <Picture
      title={`Readings of ${field.label}, as on the display`}
      table={{
        head: ['point', 'reading'],
        rows: values
          .flat()
          .map((value, i) => [
            field.shape.names[i] ?? String(i + 1),
            typeof value === 'number'
              ? String(value)
              : typeof value === 'string' && isOverRange(value)
                ? 'over range'
                : 'missing',
          ]),
      }}
    >
      <HeatMap values={read} words={words} />
    </Picture>
  );
}
