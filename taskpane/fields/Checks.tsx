import { findingsOf } from '../../src/fields/surface';
import look from './fields.module.css';
import type { FieldsStore } from './store';

/** What browser and system do to the picture that a measurement should not have. */
export function Checks({ store }: { readonly store: FieldsStore }) {
  const surface = store.surface.value;
  const findings = surface ? findingsOf(surface) : [];
  const trouble = store.trouble.value;
  return (
    <ul class={look.checks} aria-label="Checks" aria-live="polite">
      {trouble && <li>{trouble}</li>}
      {findings.map(({ code, text }) => (
        <li key={code}>{text}</li>
      ))}
      {surface && findings.length === 0 && <li>Full screen, not scaled.</li>}
    </ul>
  );
}
