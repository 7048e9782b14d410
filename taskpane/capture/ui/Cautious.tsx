import { useLayoutEffect, useRef } from 'preact/hooks';
import { CAUTIONS, LAW } from '../../cautions/Cautions';
import own from './Cautious.module.css';

/** The cautions, where measuring starts. */
export function Cautious() {
  const title = useRef<HTMLHeadingElement>(null);
  // They are read first, by eye and by screen reader.
  useLayoutEffect(() => title.current?.focus(), []);
  return (
    <section class={own.cautions} aria-labelledby="cautions-title">
      <h2 id="cautions-title" ref={title} tabIndex={-1}>
        Before you measure
      </h2>
      <ul>
        {CAUTIONS.map(([lead, rest]) => (
          <li key={lead}>
            <strong>{lead}</strong> {rest}
          </li>
        ))}
      </ul>
      <p>{LAW}</p>
    </section>
  );
}
