import type { VNode } from 'preact';
import { useRef, useState } from 'preact/hooks';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { Arrival } from '../saving/Arrival';
import { createSaving } from '../saving/saving';
import own from './Figure.module.css';

/** What a picture shows, for those who cannot see it. */
export interface PictureTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export interface PictureProps {
  /** Also the name of its file. */
  readonly title: string;
  readonly table: PictureTable;
  readonly children: VNode;
  /** What is saved where the picture in the pane is made of lines of text. */
  readonly drawing?: VNode;
}

/** A picture with the same as a table, and ways to keep it: closed below it, so that it stays calm. */
export function Picture({ title, table, children, drawing }: PictureProps) {
  const figure = useRef<HTMLElement>(null);
  const [saving] = useState(() => createSaving());
  const [isOpen, setIsOpen] = useState(false);
  const [trouble, setTrouble] = useState('');
  const save = async (kind: 'svg' | 'png') => {
    setTrouble('');
    const { fileOf } = await import('./file');
    const made = await fileOf(title, kind, drawing ?? figure.current!.querySelector('svg')!);
    if (typeof made === 'string') setTrouble(made);
    else saving.offer(made);
  };
  return (
    <figure class={own.figure} ref={figure}>
      {children}
      <details onToggle={(event) => setIsOpen(event.currentTarget.open)}>
        <summary tabIndex={0}>
          <span class={look.quiet}>As a table or a file</span>
        </summary>
        {isOpen && (
          <>
            <Table title={title} {...table} />
            <div class={`${look.answers} ${own.ways}`}>
              <Action onAct={() => void save('png')}>Save as PNG</Action>
              <Action onAct={() => void save('svg')}>Save as SVG</Action>
            </div>
            {trouble && <p class={look.error}>{trouble}</p>}
            <Arrival saving={saving} />
          </>
        )}
      </details>
    </figure>
  );
}

function Table({ title, head, rows }: PictureTable & { readonly title: string }) {
  return (
    <table class={look.beside}>
      <caption>{title}</caption>
      <thead>
        <tr>
          {head.map((text) => (
            <th key={text} scope="col">
              {text}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([first, ...others], i) => (
          <tr key={i}>
            <th scope="row">{first}</th>
            {others.map((text, at) => (
              <td key={at}>{text}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
