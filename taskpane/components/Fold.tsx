import type { ComponentChildren } from 'preact';

export interface FoldProps {
  readonly title: string;
  /** A few words beside the title that say what is inside. */
  readonly gist?: string;
  readonly isOpen: boolean;
  readonly onFold: (isOpen: boolean) => void;
  readonly children: ComponentChildren;
  readonly kind?: 'section' | 'group';
}

/** A part that folds. The browser's own `details`, so keyboard and screen reader know it. */
export function Fold({ title, gist, isOpen, onFold, children, kind = 'section' }: FoldProps) {
  return (
    <details class={`fold ${kind}`} open={isOpen} onToggle={(event) => onFold(event.currentTarget.open)}>
      <summary tabIndex={0}>
        {kind === 'section' ? <h2>{title}</h2> : <span class="name">{title}</span>}
        {gist && <span class="gist">{gist}</span>}
      </summary>
      <div class="folded">{children}</div>
    </details>
  );
}
