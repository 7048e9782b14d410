import look from '../components/look.module.css';
import { columnName } from '../importing/columnname';
import mapping from '../importing/mapping.module.css';
import { OFFER_FIELDS, OFFER_IDS } from './fields';
import type { Importing } from './importing';
import type { OffersTable } from './table';

export interface MappingFieldsProps {
  readonly importing: Importing;
  readonly table: OffersTable;
}

const UNUSED = '';

/** What each column of the file is, guessed from its heading and open to change. */
export function MappingFields({ importing, table }: MappingFieldsProps) {
  const { columns, hasHeadings } = importing;
  const first = table.lines[0]?.cells ?? [];
  const example = table.lines[hasHeadings.value ? 1 : 0]?.cells ?? [];
  return (
    <fieldset class={mapping.mapping}>
      <legend>What is in which column</legend>
      {(columns.value ?? []).map((field, column) => {
        const id = `offers-column-${column}`;
        return (
          <div key={id} class={look.field}>
            <label for={id}>Column {columnName(hasHeadings.value ? first[column] : '', column)}</label>
            <select
              id={id}
              value={field ?? UNUSED}
              aria-describedby={`${id}-note`}
              onChange={(event) => {
                const chosen = event.currentTarget.value;
                importing.map(
                  column,
                  OFFER_IDS.find((one) => one === chosen),
                );
              }}
            >
              <option value={UNUSED}>not used</option>
              {OFFER_IDS.map((one) => (
                <option key={one} value={one}>
                  {OFFER_FIELDS[one].label}
                </option>
              ))}
            </select>
            <p class={look.quiet} id={`${id}-note`}>
              {example[column]?.trim() ? `as in “${example[column]}”` : ''}
            </p>
          </div>
        );
      })}
    </fieldset>
  );
}
