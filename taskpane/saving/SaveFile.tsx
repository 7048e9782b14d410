import { useState } from 'preact/hooks';
import { Action, type ActionProps } from '../components/Action';
import { CopyText } from '../components/CopyText';
import look from '../components/look.module.css';
import { Arrival } from './Arrival';
import { createSaving, type TextFile } from './saving';

export interface SaveFileProps extends Omit<ActionProps, 'onAct'> {
  readonly file: () => TextFile;
  /** What the button beside it says, which copies the same text. */
  readonly copy: string;
  readonly onSave?: () => void;
}

/** A file of text: saved, or copied where the program lets the pane save none. */
export function SaveFile({ file, copy, onSave, children, ...button }: SaveFileProps) {
  const [saving] = useState(() => createSaving());
  return (
    <>
      <div class={look.answers}>
        <Action
          {...button}
          onAct={() => {
            saving.offer(file());
            onSave?.();
          }}
        >
          {children}
        </Action>
      </div>
      <Arrival saving={saving} />
      <CopyText text={() => file().text}>{copy}</CopyText>
    </>
  );
}
