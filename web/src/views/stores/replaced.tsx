import { useQuery } from '@tanstack/react-query';
import type { PartName } from '#contracts/parts.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { partQuery } from './stores-queries.ts';

interface ReplacedProps {
  readonly part: PartName | null;
  readonly why: string;
  readonly error: string | undefined;
  readonly onWhy: (why: string) => void;
  readonly onInstead: (part: PartName) => void;
}

/** Of a part that was replaced: what to order instead, or why the old one is wanted all the same. */
export function Replaced({ part, why, error, onWhy, onInstead }: ReplacedProps) {
  const { orderDialog: words } = useWords().stores;
  const { data } = useQuery({ ...partQuery(part?.id ?? ''), enabled: part !== null });
  const next = data?.part.supersededBy ?? null;
  if (part === null || next === null) return null;
  return (
    <>
      <div className="kit-acts">
        <p>{words.replaced(part.number, `${next.name} (${next.number})`)}</p>
        <Button onClick={() => onInstead(next)}>{words.insteadOfIt(next.number)}</Button>
      </div>
      <Field label={words.replacedWhy} hint={words.replacedWhyHint} error={error}>
        {(input) => <input {...input} maxLength={300} value={why} onChange={({ target }) => onWhy(target.value)} />}
      </Field>
    </>
  );
}
