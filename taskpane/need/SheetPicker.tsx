import type { Followed } from './follow';

export interface SheetPickerProps {
  readonly id: string;
  readonly label: string;
  readonly followed: Followed;
}

/** Which sheet is shown; a choice where there are several of its kind. */
export function SheetPicker({ id, label, followed }: SheetPickerProps) {
  const { sheets, shown } = followed;
  if (sheets.value.length < 2) return <p class="sheet">on sheet “{shown.value}”</p>;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={shown.value} onChange={(event) => followed.pick(event.currentTarget.value)}>
        {sheets.value.map(({ sheet }) => (
          <option key={sheet} value={sheet}>
            {sheet}
          </option>
        ))}
      </select>
    </div>
  );
}
