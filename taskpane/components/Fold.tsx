import type { ComponentChildren } from 'preact';
import own from './Fold.module.css';
import look from './look.module.css';

export interface FoldProps {
  readonly title: string;
  /** A few words beside the title that say what is inside. */
  readonly gist?: string;
  readonly isOpen: boolean;
  readonly onFold: (isOpen: boolean) => void;
  readonly children: ComponentChildren;
  readonly kind?: 'section' | 'group';
  /** Something to be read before all else. */
  readonly isGrave?: boolean;
  /** What is inside has a card and a title of its own, which the fold stands for. */
  readonly hasCards?: boolean;
}

/** A part that folds. The browser's own `details`, so keyboard and screen reader know it. */
export function Fold({
  title,
  gist,
  isOpen,
  onFold,
  children,
  kind = 'section',
  isGrave,
  hasCards,
}: FoldProps) {
  const form = kind === 'group' ? own.group : own.section;
  return (
    <details
      class={isGrave ? `${form} ${own.grave}` : form}
      open={isOpen}
      onToggle={(event) => onFold(event.currentTarget.open)}
    >
      <summary tabIndex={0}>
        {kind === 'section' ? <h2>{title}</h2> : <span class={own.name}>{title}</span>}
        {gist && <span class={`${look.quiet} ${own.gist}`}>{gist}</span>}
      </summary>
      <div class={own.folded} data-cards={hasCards ? '' : undefined}>
        {children}
      </div>
    </details>
  );
}
