import { useState } from 'react';
import type { ChangeCountRules, CountRulesChanged } from '#contracts/count-rule-changes.ts';
import type { StockClass } from '#contracts/counts.ts';
import { Field } from '../../../kit/field.tsx';
import { useWords } from '../../../words/words.tsx';
import { ChangeSeveralDialog } from '../change-several-dialog.tsx';

/** As typed; an empty one stays as it is. */
interface Entry {
  readonly tolerancePieces: string;
  readonly tolerancePercent: string;
  readonly everyDays: string;
}

const isWhole = (text: string): boolean => text === '' || /^\d{1,5}$/.test(text);
const isWrong = ({ tolerancePieces, everyDays }: Entry): boolean => !isWhole(tolerancePieces) || !isWhole(everyDays);

const changeOf = (entry: Entry, classes: readonly StockClass[]): ChangeCountRules => ({
  classes: [...classes],
  ...(entry.tolerancePieces === '' ? {} : { tolerancePieces: Number(entry.tolerancePieces) }),
  ...(entry.tolerancePercent === '' ? {} : { tolerancePercent: entry.tolerancePercent }),
  ...(entry.everyDays === '' ? {} : { everyDays: Number(entry.everyDays) }),
});

interface DialogProps {
  readonly classes: readonly StockClass[];
  readonly onClose: () => void;
}

/** Sets the rules of several classes in one act, with how many bins become due by it. */
export function RuleChangeDialog({ classes, onClose }: DialogProps) {
  const { ruleChanges: words, counts, partChanges } = useWords();
  const [entry, setEntry] = useState<Entry>({ tolerancePieces: '', tolerancePercent: '', everyDays: '' });
  const names = {
    tolerancePieces: counts.rules.pieces,
    tolerancePercent: counts.rules.percent,
    everyDays: counts.rules.days,
  };
  const fields = ['tolerancePieces', 'tolerancePercent', 'everyDays'] as const;
  const isNothing = fields.every((field) => entry[field] === '');
  return (
    <ChangeSeveralDialog<CountRulesChanged['items'][number], CountRulesChanged>
      words={{ ...words, title: words.title(classes.length) }}
      path="/count-rules/changes"
      body={changeOf(entry, classes)}
      keyed={!isNothing && !isWrong(entry)}
      onClose={onClose}
      itemOf={({ class: of }) => ({ id: of, name: <b>{counts.rules.of(of)}</b> })}
      factIn={(fact) => names[fact]}
      also={({ due }) => <p className="note">{words.due(due.from, due.to)}</p>}
      fields={(changed) => (
        <div className="rule-fields">
          {fields.map((field) => (
            <Field
              key={field}
              label={names[field]}
              error={field === 'tolerancePercent' || isWhole(entry[field]) ? undefined : words.whole}
            >
              {(input) => (
                <input
                  {...input}
                  inputMode="decimal"
                  maxLength={6}
                  placeholder={partChanges.asItIs}
                  value={entry[field]}
                  onChange={({ target }) => {
                    changed();
                    setEntry({ ...entry, [field]: target.value.trim() });
                  }}
                />
              )}
            </Field>
          ))}
        </div>
      )}
    />
  );
}
