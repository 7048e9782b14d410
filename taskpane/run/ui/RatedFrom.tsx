import { Choice } from '../../components/Choice';
import type { NewRun } from '../newrun';

/** Whether the rated figures are typed or follow the offer chosen on an offers sheet. */
export function RatedFrom({ newRun }: { readonly newRun: NewRun }) {
  const { offers, ratedFrom } = newRun;
  return (
    <Choice
      id="rated-from"
      label="Rated light output"
      value={ratedFrom.value ?? ''}
      choices={[
        ['', 'as typed below'],
        ...offers.value.map((sheet) => [sheet, `of the offer chosen on “${sheet}”`] as const),
      ]}
      hint={
        ratedFrom.value === undefined
          ? ''
          : 'The run sheet is linked to it and follows the choice; what is typed below does not count.'
      }
      onPick={(sheet) => newRun.takeRatedFrom(sheet || undefined)}
    />
  );
}
