import { TroubleBox } from '../components/TroubleBox';
import type { BodyProps } from '../sheet/body';
import { follow } from '../store/follow';
import { perStore } from '../store/perstore';
import { Answer } from './Answer';
import { answer } from './forecast';
import { understand } from './form';
import { fromAgeingSheet } from './take';

const shownAgeing = perStore((store) => follow(store, 'ageing'));

/** An ageing sheet: when its light is gone, with the picture; read from the sheet and not from the form. */
export function AgeingBody({ store }: BodyProps) {
  const { reading, trouble } = shownAgeing(store);
  if (trouble.value) return <TroubleBox trouble={trouble.value} facts={store.facts} />;
  if (!reading.value) return null;
  const { texts, lines } = fromAgeingSheet(reading.value);
  const { points, setup } = understand(texts, lines);
  return (
    <Answer
      points={points}
      found={setup ? answer(setup) : 'Some measurements on the sheet need another look.'}
    />
  );
}
