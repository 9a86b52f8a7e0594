import { useQuery } from '@tanstack/react-query';
import type { DemandLine } from '#contracts/demands.ts';
import { faultAt } from '../../app/write.ts';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { GradeField } from './grade-field.tsx';
import type { RuleEntry } from './rule-entry.ts';
import { partQuery } from './stores-queries.ts';

interface FieldsProps {
  readonly line: DemandLine;
  readonly rule: RuleEntry;
  readonly onRule: (rule: RuleEntry) => void;
  readonly error: Parameters<typeof faultAt>[0];
}

/** By which rule the lots of a line are chosen: who set the one in force and why, and what it shall be. */
export function RuleFields({ line, rule, onRule, error }: FieldsProps) {
  const { rule: words } = useWords().stores;
  const part = useQuery(partQuery(line.part.id)).data?.part;
  const rules = (['oldest', 'grade', 'exact thickness'] as const).filter(
    (one) => one !== 'exact thickness' || part?.shim != null,
  );
  return (
    <>
      <InForce line={line} />
      <Choice
        label={words.label}
        value={rule.rule}
        onChange={(next) => onRule({ ...rule, rule: next })}
        options={rules.map((value) => ({ value, label: words.names[value], note: words.notes[value] }))}
      />
      {rule.rule === 'grade' ? (
        <GradeField
          label={words.grade}
          part={part}
          grade={rule.grade}
          error={error}
          onGrade={(grade) => onRule({ ...rule, grade })}
        />
      ) : null}
      {rule.rule === 'exact thickness' ? (
        <Field label={words.thickness} hint={words.thicknessHint} error={faultAt(error, '/thickness')}>
          {(input) => (
            <input
              {...input}
              inputMode="decimal"
              maxLength={12}
              value={rule.thickness}
              onChange={({ target }) => onRule({ ...rule, thickness: target.value })}
            />
          )}
        </Field>
      ) : null}
      {line.reserved > 0 ? <p className="note">{words.givesBack}</p> : null}
    </>
  );
}

/** The rule in force, and who set it when and why; nothing where nobody did. */
function InForce({ line: { lotRule } }: { readonly line: DemandLine }) {
  const { rule: words } = useWords().stores;
  const format = useFormat();
  if (lotRule === null) return null;
  return (
    <p className="note">
      <b>{words.now(lotRule.words)}</b>: {words.why(lotRule.reason, lotRule.by, format.since(lotRule.at))}
    </p>
  );
}
