import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { FileField } from './FileField';
import { Fold, type FoldProps } from './Fold';

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
      <div class="field">
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

export interface TableHowProps {
  readonly id: string;
  /** How the table was taken apart. */
  readonly how: string;
  readonly proof: { readonly mark: string; readonly example: string } | undefined;
  readonly hasHeadings: boolean;
  readonly onHeadings: (has: boolean) => void;
}

/** How a table was understood, and whether its first line is one of it. */
export function TableHow({ id, how, proof, hasHeadings, onHeadings }: TableHowProps) {
  return (
    <>
      <p class="quiet">
        {how}
        {proof ? ` The ${proof.mark} is the decimal mark, as in “${proof.example}”.` : ''}
      </p>
      <label class="tick" for={`${id}-headings`}>
        <input
          id={`${id}-headings`}
          type="checkbox"
          checked={hasHeadings}
          onChange={(event) => onHeadings(event.currentTarget.checked)}
        />
        The first line holds headings
      </label>
    </>
  );
}
