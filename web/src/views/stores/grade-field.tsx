import { useId } from 'react';
import type { Part } from '#contracts/parts.ts';
import { faultAt } from '../../app/write.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

interface GradeProps {
  readonly label: string;
  /** The part whose grades in stock are offered; undefined: not read yet. */
  readonly part: Part | undefined;
  readonly grade: string;
  readonly error: Error | null;
  /** Where a refusal points to. */
  readonly pointer?: string;
  readonly onGrade: (grade: string) => void;
}

/** The mark of a grade, typed or chosen of those that lie in stock. */
export function GradeField({ label, part, grade, error, pointer = '/grade', onGrade }: GradeProps) {
  const { rule: words } = useWords().stores;
  const list = useId();
  const marks = (part?.lots ?? []).map((lot) => lot.grade).filter((mark) => mark !== '');
  const grades = [...new Set(marks)].toSorted();
  return (
    <Field
      label={label}
      hint={grades.length === 0 ? words.noGrades : words.gradesThere(grades.join(', '))}
      error={faultAt(error, pointer)}
    >
      {(input) => (
        <>
          <input
            {...input}
            list={list}
            maxLength={20}
            autoCapitalize="off"
            value={grade}
            onChange={({ target }) => onGrade(target.value)}
          />
          <datalist id={list}>
            {grades.map((mark) => (
              <option key={mark} value={mark} />
            ))}
          </datalist>
        </>
      )}
    </Field>
  );
}
