import { TEST_FIELDS, testField } from '../../src/fields/field';
import { sizeText } from '../../src/fields/size';
import { Checks } from './Checks';
import look from './fields.module.css';
import type { FieldsStore } from './store';

/** The keys, small and dark, over a field. */
export function Help({ store }: { readonly store: FieldsStore }) {
  const surface = store.surface.value;
  const field = store.shown.value?.field;
  return (
    <aside class={look.help} aria-label="Keys">
      {field && (
        <p>
          {testField(field).title}
          {surface && `, ${sizeText(surface.drawn)} pixels`}
        </p>
      )}
      <Keys />
      <ul class={look.list}>
        {TEST_FIELDS.map(({ id, key, title }) => (
          <li key={id} aria-current={id === field ? 'true' : undefined}>
            <kbd>{key.toUpperCase()}</kbd> {title}
          </li>
        ))}
      </ul>
      <Checks store={store} />
    </aside>
  );
}

/** Keys that work while a field is shown. */
export function Keys() {
  return (
    <ul class={look.list}>
      <li>
        <kbd>→</kbd> <kbd>Space</kbd> next field, <kbd>←</kbd> the one before
      </li>
      <li>
        <kbd>F</kbd> full screen
      </li>
      <li>
        <kbd>H</kbd> or <kbd>?</kbd> this list of keys
      </li>
      <li>
        <kbd>Esc</kbd> leaves
      </li>
    </ul>
  );
}
