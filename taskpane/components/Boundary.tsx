import { Component, type ComponentChildren } from 'preact';
import type { HostFacts } from '../../src/excel/host';
import { type Trouble, troubleOf } from '../store/trouble';
import { TroubleBox } from './TroubleBox';

interface BoundaryProps {
  readonly facts: HostFacts;
  readonly children: ComponentChildren;
}

/** A mistake of ours in drawing the pane leaves words behind, not an empty pane. */
export class Boundary extends Component<BoundaryProps, { trouble?: Trouble }> {
  override componentDidCatch(error: unknown): void {
    this.setState({ trouble: troubleOf(error, 'Drawing the pane') });
  }

  override render({ facts, children }: BoundaryProps, { trouble }: { trouble?: Trouble }) {
    if (!trouble) return children;
    return (
      <TroubleBox trouble={trouble} facts={facts} onDismiss={() => this.setState({ trouble: undefined })} />
    );
  }
}
