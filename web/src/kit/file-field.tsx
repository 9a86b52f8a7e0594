import { Field } from './field.tsx';

interface FileFieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly accept: string;
  readonly onFile: (file: File) => void;
}

/** Chooses one file. Chosen again after it was mended it is read again: a browser tells only of another choice. */
export function FileField({ label, hint, accept, onFile }: FileFieldProps) {
  return (
    <Field label={label} {...(hint === undefined ? {} : { hint })} big>
      {(input) => (
        <input
          {...input}
          type="file"
          accept={accept}
          onClick={({ currentTarget }) => {
            currentTarget.value = '';
          }}
          onChange={({ target }) => {
            const [file] = target.files ?? [];
            if (file !== undefined) onFile(file);
          }}
        />
      )}
    </Field>
  );
}
