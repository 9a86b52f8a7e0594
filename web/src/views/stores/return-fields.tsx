import { useQuery } from '@tanstack/react-query';
import { faultAt } from '../../app/write.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { BinOptions } from './bin-options.tsx';
import { binsQuery } from './stores-queries.ts';

interface ReturnFieldsProps {
  readonly stillNeeded: boolean;
  readonly onStillNeeded: (stillNeeded: boolean) => void;
  /** Empty: where they lay before. */
  readonly binId: string;
  readonly onBin: (binId: string) => void;
  readonly error: Parameters<typeof faultAt>[0];
}

/** Of pieces that come back unused: whether their job needs them later, and into which bin they go. */
export function ReturnFields({ stillNeeded, onStillNeeded, binId, onBin, error }: ReturnFieldsProps) {
  const { acts: words } = useWords().stores;
  const bins = useQuery(binsQuery).data?.items ?? [];
  return (
    <>
      <label className="check">
        <input
          type="checkbox"
          checked={stillNeeded}
          onChange={({ currentTarget }) => onStillNeeded(currentTarget.checked)}
        />
        {words.stillNeeded}
      </label>
      <Field label={words.backInto} error={faultAt(error, '/binId')}>
        {(input) => (
          <select {...input} value={binId} onChange={({ target }) => onBin(target.value)}>
            <option value="">{words.whereItLay}</option>
            <BinOptions of={bins} />
          </select>
        )}
      </Field>
    </>
  );
}
