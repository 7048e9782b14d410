import '../need/need.css';
import './ageing.css';
import { computed, effect, signal } from '@preact/signals';
import type { KnownSheet, SheetReading } from '../../src/excel/host';
import { TroubleBox } from '../components/TroubleBox';
import type { BodyProps } from '../sheet/body';
import { lastLook } from '../store/lastlook';
import { perStore } from '../store/perstore';
import type { Trouble } from '../store/trouble';
import { Answer } from './Answer';
import { answer } from './answer';
import { understand } from './form';
import { fromAgeingSheet } from './take';

/** What the measurements of the ageing sheet in front say, read from the sheet and not from the form. */
const shownAgeing = perStore(({ host, workbook, front }) => {
  const reading = signal<SheetReading | undefined>(undefined);
  const trouble = signal<Trouble | undefined>(undefined);
  const look = lastLook(({ sheet }: KnownSheet) => host.read(sheet), {
    what: 'Reading the ageing sheet',
    trouble,
    isKept: true,
    take: (found) => {
      reading.value = found;
    },
  });
  effect(() => {
    const sheet = front.sheet.value;
    if (workbook.survey.value && sheet && front.isOf('ageing')) void look(sheet);
  });
  const found = computed(() => {
    const shown = reading.value;
    if (!shown || shown.sheet !== front.sheet.value?.sheet) return undefined;
    const { texts, lines } = fromAgeingSheet(shown);
    const { isFit, setup } = understand(texts, lines);
    return {
      points: setup.points,
      answer: isFit ? answer(setup) : 'Some measurements on the sheet need another look.',
    };
  });
  return { found, trouble };
});

/** An ageing sheet: when its light is gone, with the picture. */
export function AgeingBody({ store }: BodyProps) {
  const { found, trouble } = shownAgeing(store);
  return (
    <>
      {trouble.value && <TroubleBox trouble={trouble.value} facts={store.facts} />}
      {found.value && <Answer points={found.value.points} found={found.value.answer} />}
    </>
  );
}
