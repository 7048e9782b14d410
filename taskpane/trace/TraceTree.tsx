import type { ComponentChildren } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { TraceNode } from '../../src/audit/trace/node';
import { shownValue } from '../../src/audit/trace/text';
import { valueText } from '../../src/audit/trace/write';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { CellButton } from './CellButton';
import own from './TraceTree.module.css';
import traced from './trace.module.css';

export interface TraceTreeProps {
  readonly store: Store;
  readonly node: TraceNode;
  readonly depth: number;
  /** Steps down to this depth begin open. */
  readonly openTo: number;
}

/** Digits of numbers, as in the text of a chain. */
const DIGITS = 7;

/** One step of a chain and, folded under it, what it rests on. */
export function TraceTree({ store, node, depth, openTo }: TraceTreeProps) {
  const [isOpen, setOpen] = useState(depth <= openTo);
  const body = useId();
  const isLeaf =
    node.isSeen || (node.children.length === 0 && node.formula === undefined && !node.cells && !node.source);
  const title = (
    <>
      {node.label} = <strong>{shownValue(node)}</strong>
      {node.isSeen && <span class={look.quiet}> explained above</span>}
    </>
  );
  return (
    <li>
      <div class={traced.step}>
        {isLeaf ? (
          <p class={own.leaf}>{title}</p>
        ) : (
          <button
            type="button"
            class={own.toggle}
            aria-expanded={isOpen}
            aria-controls={body}
            onClick={() => setOpen(!isOpen)}
          >
            {title}
          </button>
        )}
        <CellButton store={store} sheet={node.sheet} at={node.at} />
      </div>
      {!node.isSeen &&
        node.findings.map((finding) => (
          <p key={finding} class={look.error}>
            {finding}
          </p>
        ))}
      {!isLeaf && (
        <div id={body} class={own.behind} hidden={!isOpen}>
          {isOpen && <Behind store={store} node={node} depth={depth} openTo={openTo} />}
        </div>
      )}
    </li>
  );
}

/** The formula of a step in words and numbers, its source, and the steps before it. */
function Behind({ store, node, depth, openTo }: TraceTreeProps) {
  const { words, numbers, recomputed, because, definition, source, formula, cells, children } = node;
  return (
    <>
      <dl class={traced.facts}>
        <Fact term="in words">{words}</Fact>
        <Fact term="numbers">{numbers && `${numbers} = ${valueText(recomputed ?? null, DIGITS)}`}</Fact>
        <Fact term="because">{because.join('; ')}</Fact>
        <Fact term="is">{definition}</Fact>
        <Fact term="source">{source}</Fact>
        <Fact term="formula">{formula && <code>{formula}</code>}</Fact>
      </dl>
      {cells && (
        <ul class={own.tree} aria-label={`Cells of ${node.label}`}>
          {cells.map((cell) => (
            <li key={cell.at} class={traced.step}>
              <p class={own.leaf}>
                {cell.label}: {cell.numbers !== undefined && `${cell.numbers} = `}
                <strong>{valueText(cell.value, DIGITS)}</strong>
                {cell.source !== undefined && <span class={look.quiet}>; {cell.source}</span>}
              </p>
              <CellButton store={store} sheet={node.sheet} at={cell.at} />
            </li>
          ))}
        </ul>
      )}
      {children.length > 0 && (
        <ul class={own.tree} aria-label={`What ${node.label} rests on`}>
          {children.map((child) => (
            // Cells of several sheets may have one address.
            <TraceTree
              key={`${child.sheet}!${child.at}`}
              store={store}
              node={child}
              depth={depth + 1}
              openTo={openTo}
            />
          ))}
        </ul>
      )}
    </>
  );
}

interface FactProps {
  readonly term: string;
  readonly children: ComponentChildren;
}

function Fact({ term, children }: FactProps) {
  if (!children) return null;
  return (
    <div>
      <dt>{term}</dt>
      <dd>{children}</dd>
    </div>
  );
}
