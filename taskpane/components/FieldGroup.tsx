import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import type { Form } from '../form/form';
import { Fields } from './Field';
import own from './FieldGroup.module.css';
import { Fold } from './Fold';
import look from './look.module.css';

export interface FieldGroupProps<K extends string> {
  readonly form: Form<K>;
  /** Begins the ids of its controls, where the form stands among others of its kind. */
  readonly at?: string | undefined;
  readonly title: string;
  /** What is in it, or what it says as it stands. */
  readonly gist: string;
  readonly ids: readonly K[];
  /** Said above the fields. */
  readonly note?: string | undefined;
  /** Numbers two beside each other. */
  readonly isDense?: boolean;
  readonly children?: ComponentChildren;
}

/** Fields that most people leave as they are, closed until they are wanted. With something wrong to show it stays open. */
export function FieldGroup<K extends string>(props: FieldGroupProps<K>) {
  const { form, at, title, gist, ids, note, isDense = false, children } = props;
  const isOpen = useSignal(false);
  const fields = <Fields form={form} at={at} ids={ids} />;
  return (
    <Fold
      kind="group"
      title={title}
      gist={gist}
      isOpen={isOpen.value || ids.some(form.isWrong)}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      {note && <p class={look.quiet}>{note}</p>}
      {children}
      {isDense ? <div class={own.pairs}>{fields}</div> : fields}
    </Fold>
  );
}
