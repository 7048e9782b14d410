import look from '../components/look.module.css';

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
      <p class={look.quiet}>
        {how}
        {proof ? ` The ${proof.mark} is the decimal mark, as in “${proof.example}”.` : ''}
      </p>
      <label class={look.tick} for={`${id}-headings`}>
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
