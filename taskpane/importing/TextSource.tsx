import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { FileField } from '../components/FileField';
import { Fold, type FoldProps } from '../components/Fold';
import look from '../components/look.module.css';

export interface TextSourceProps extends Pick<FoldProps, 'kind' | 'title' | 'gist'> {
  /** Ids of its fields begin so: `offers` gives `offers-file` and `offers-paste`. */
  readonly id: string;
  readonly file: { readonly label: string; readonly accept: string; readonly onChoose: (file: File) => void };
  readonly paste: { readonly label: string; readonly rows: number; readonly onPaste: (text: string) => void };
  readonly text: string;
  /** What is said of the text at once: a remark, what is wrong with it. */
  readonly said: ComponentChildren;
  /** What was made of it. */
  readonly children: ComponentChildren;
}

/** Something from elsewhere, as a file or pasted, and below it what was understood. */
export function TextSource({ id, file, paste, text, said, children, ...fold }: TextSourceProps) {
  const isOpen = useSignal(false);
  return (
    <Fold
      {...fold}
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <FileField id={`${id}-file`} {...file} />
      <div class={look.field}>
        <label for={`${id}-paste`}>{paste.label}</label>
        <textarea
          id={`${id}-paste`}
          rows={paste.rows}
          spellcheck={false}
          value={text}
          onInput={(event) => paste.onPaste(event.currentTarget.value)}
        />
      </div>
      <div role="status">{said}</div>
      {children}
    </Fold>
  );
}
