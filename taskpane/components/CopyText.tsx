import { useState } from 'preact/hooks';
import { Action } from './Action';
import own from './CopyText.module.css';
import look from './look.module.css';

export interface CopyTextProps {
  readonly children: string;
  readonly text: () => string;
  /** The text stands below from the start. */
  readonly isShown?: boolean;
}

/** Copies a text; where the pane may not use the clipboard it shows the text for copying by hand. */
export function CopyText({ children, text, isShown = false }: CopyTextProps) {
  const [state, setState] = useState<'' | 'copied' | 'shown'>('');
  return (
    <div class={own.copy}>
      <Action
        onAct={() => {
          copied(text()).then((isCopied) => setState(isCopied ? 'copied' : 'shown'));
        }}
      >
        {children}
      </Action>
      <p class={look.quiet} role="status">
        {state === 'copied' && 'Copied.'}
        {state === 'shown' && 'This program does not let the pane copy. Copy the text below.'}
      </p>
      {(isShown || state === 'shown') && (
        <textarea readOnly rows={8} aria-label="Text to copy" spellcheck={false} value={text()} />
      )}
    </div>
  );
}

/** Whether the text is on the clipboard now. Hosts refuse in their own ways; all of them mean no. */
function copied(text: string): Promise<boolean> {
  if (!navigator.clipboard) return Promise.resolve(false);
  return navigator.clipboard.writeText(text).then(
    () => true,
    () => false,
  );
}
