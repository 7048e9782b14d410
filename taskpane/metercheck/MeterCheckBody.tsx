import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import type { BodyProps } from '../sheet/body';
import { lastLook } from '../store/lastlook';
import { perStore } from '../store/perstore';
import type { Trouble } from '../store/trouble';
import type { Store } from '../store/type';
import { type Part, partsOf } from './found';

interface Shown {
  readonly parts: ReadonlySignal<readonly Part[] | undefined>;
  readonly trouble: ReadonlySignal<Trouble | undefined>;
}

/** What the meter check in front has found, which follows the sheet. */
const shownOf = perStore(({ host, workbook, front }: Store): Shown => {
  const parts = signal<readonly Part[] | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const shown = computed(() => (front.isOf('metercheck') ? front.sheet.value?.sheet : undefined));
  const look = lastLook((sheet: string) => host.read(sheet), {
    what: 'Reading the meter check',
    trouble,
    isKept: true,
    take: (reading) => {
      parts.value = reading && partsOf(reading);
    },
  });
  effect(() => {
    const sheet = shown.value;
    if (workbook.survey.value && sheet !== undefined) void look(sheet);
    else parts.value = undefined;
  });
  return { parts, trouble };
});

/** What a meter is worth by its own readings, part by part. */
export function MeterCheckBody({ store }: BodyProps) {
  const { parts, trouble } = shownOf(store);
  if (!parts.value) return null;
  return (
    <section class={look.card} aria-labelledby="meter-check-found">
      <h2 id="meter-check-found">What was found</h2>
      {trouble.value && <TroubleBox trouble={trouble.value} facts={store.facts} />}
      <dl>
        {parts.value.map(({ label, text }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <p class={look.quiet}>
        Of a reading. Readings are typed on the sheet, part by part; calibration and colours are not seen
        here. The form of a run takes these figures over.
      </p>
    </section>
  );
}
