import look from './look.module.css';

export interface FileFieldProps {
  readonly id: string;
  readonly label: string;
  /** Endings and types, as the accept attribute of a file field has them. */
  readonly accept: string;
  readonly onChoose: (file: File) => void;
}

/** A file of the person's own; the same one, corrected, can be chosen again. */
export function FileField({ id, label, accept, onChoose }: FileFieldProps) {
  return (
    <div class={look.field}>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="file"
        accept={accept}
        onChange={(event) => {
          const input = event.currentTarget;
          const file = input.files?.[0];
          if (!file) return;
          onChoose(file);
          input.value = '';
        }}
      />
    </div>
  );
}
