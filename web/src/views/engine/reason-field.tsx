import { WordsField } from '../../kit/words-field.tsx';
import { useWords } from '../../words/words.tsx';

interface ReasonFieldProps {
  readonly hint?: string;
  readonly error?: string | undefined;
  readonly rows: number;
  readonly reason: string;
  readonly onReason: (reason: string) => void;
}

/** Why somebody decides as they do, kept with the decision under their name. */
export function ReasonField({ rows, reason, onReason, ...said }: ReasonFieldProps) {
  const words = useWords().engine;
  return <WordsField label={words.decideReason} most={500} value={reason} onChange={onReason} rows={rows} {...said} />;
}
