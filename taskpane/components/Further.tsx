import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { Fold } from './Fold';

export interface FurtherProps {
  readonly title: string;
  readonly gist: string;
  /** Whether something inside needs another look: then it cannot stay closed. */
  readonly isOpen?: boolean;
  readonly children: ComponentChildren;
}

/** Fields of a form that most people leave as they are, closed until they are wanted. */
export function Further({ title, gist, isOpen = false, children }: FurtherProps) {
  const isUnfolded = useSignal(isOpen);
  return (
    <Fold
      kind="group"
      title={title}
      gist={gist}
      isOpen={isUnfolded.value || isOpen}
      onFold={(open) => {
        isUnfolded.value = open;
      }}
    >
      {children}
    </Fold>
  );
}
