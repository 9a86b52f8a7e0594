import type { Lot } from '#contracts/parts.ts';
import type { CorrectLotMarks } from '#contracts/stock.ts';
import { faultAt } from '../../app/write.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

/** What the lot bears as it is typed; an empty thickness: nobody measured it. */
interface Marks {
  readonly grade: string;
  readonly thickness: string;
}

export const marksOf = ({ grade, thickness }: Lot): Marks => ({ grade, thickness: thickness?.value ?? '' });

/** What was changed of the marks. */
export function marksBody(lot: Lot, { grade, thickness }: Marks, reason: string): CorrectLotMarks {
  const [before, value] = [marksOf(lot), thickness.trim().replace(',', '.')];
  return {
    ...(grade.trim() === before.grade ? {} : { grade: grade.trim() }),
    ...(value === before.thickness ? {} : { thickness: value === '' ? null : { value, unit: 'mm' } }),
    reason,
  };
}

interface MarkProps {
  readonly marks: Marks;
  readonly isShim: boolean;
  readonly error: Error | null;
  readonly onMarks: (marks: Marks) => void;
}

/** The mark of its grade, and of shims how thick they are. */
export function MarkFields({ marks, isShim, error, onMarks }: MarkProps) {
  const { correct: words } = useWords().stores;
  return (
    <>
      <Field label={words.grade} hint={words.gradeHint} error={faultAt(error, '/grade')}>
        {(input) => (
          <input
            {...input}
            maxLength={20}
            value={marks.grade}
            onChange={({ target }) => onMarks({ ...marks, grade: target.value })}
          />
        )}
      </Field>
      {isShim ? (
        <Field label={words.thickness} hint={words.thicknessHint} error={faultAt(error, '/thickness')}>
          {(input) => (
            <input
              {...input}
              inputMode="decimal"
              maxLength={12}
              value={marks.thickness}
              onChange={({ target }) => onMarks({ ...marks, thickness: target.value })}
            />
          )}
        </Field>
      ) : null}
    </>
  );
}
