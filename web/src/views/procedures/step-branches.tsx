import { type Condition, type Fact, facts, factValues } from '#domain/procedures/document.ts';
import { useWords } from '../../words/words.tsx';
import { SelectField, TextField } from '../specs/form-fields.tsx';
import { ListEditor } from './list-editor.tsx';
import type { StepFormProps, WrittenStep } from './written-step.ts';

interface BranchFieldsProps extends Pick<StepFormProps, 'step' | 'before'> {
  readonly set: (part: Partial<WrittenStep>) => void;
}

const isFact = (text: string): text is Fact => facts.some((fact) => fact === text);

/** One box a value: where any ticked one is so, the step stands. */
function OneOf(props: {
  readonly legend: string;
  readonly options: readonly (readonly [string, string])[];
  readonly chosen: readonly string[];
  readonly onChange: (chosen: string[]) => void;
}) {
  const { legend, options, chosen, onChange } = props;
  return (
    <fieldset className="one-of">
      <legend>{legend}</legend>
      {options.map(([code, told]) => (
        <label key={code} className="tick">
          <input
            type="checkbox"
            checked={chosen.includes(code)}
            onChange={({ target }) =>
              onChange(target.checked ? [...chosen, code] : chosen.filter((each) => each !== code))
            }
          />
          {told}
        </label>
      ))}
    </fieldset>
  );
}

/** What the step asks, and what it stands on. */
export function BranchFields({ step, before, set }: BranchFieldsProps) {
  const { edit: words, factNames: factWords } = useWords().procedures;
  const questions = before.flatMap(({ asks }) => (asks === null ? [] : [asks]));
  const keyOf = (condition: Condition) => ('fact' in condition ? condition.fact : `? ${condition.question}`);
  const begin = (key: string): Condition =>
    isFact(key) ? { fact: key, oneOf: [] } : { question: key.replace(/^\? /, ''), oneOf: [] };
  const optionsOf = (condition: Condition): readonly (readonly [string, string])[] | null => {
    if ('fact' in condition) return factValues[condition.fact]?.map((value) => [value, value] as const) ?? null;
    const asked = questions.find(({ code }) => code === condition.question);
    return asked?.choices.map(({ code, words: told }) => [code, told] as const) ?? [];
  };
  return (
    <>
      <ListEditor<Condition>
        title={words.onlyIf}
        hint={words.onlyIfHint}
        items={step.onlyIf}
        fresh={{ fact: 'cooling', oneOf: ['water'] }}
        onChange={(onlyIf) => set({ onlyIf: onlyIf.map((one) => ({ ...one, oneOf: [...one.oneOf] })) })}
        row={(condition, change) => {
          const options = optionsOf(condition);
          return (
            <>
              <SelectField
                label={words.standsOn}
                value={keyOf(condition)}
                options={[
                  ...facts.map((fact) => [fact as string, factWords[fact]] as const),
                  ...questions.map(({ code, words: told }) => [`? ${code}`, told] as const),
                ]}
                onChange={(key) => change(begin(key ?? 'cooling'))}
              />
              {options === null ? (
                <TextField
                  label={words.oneOf}
                  hint={words.oneOfHint}
                  value={condition.oneOf.join(', ')}
                  onChange={(text) =>
                    change({
                      ...condition,
                      oneOf: text
                        .split(',')
                        .map((each) => each.trim())
                        .filter((each) => each !== ''),
                    })
                  }
                />
              ) : (
                <OneOf
                  legend={words.oneOf}
                  options={options}
                  chosen={condition.oneOf}
                  onChange={(oneOf) => change({ ...condition, oneOf })}
                />
              )}
            </>
          );
        }}
      />
      <label className="tick">
        <input
          type="checkbox"
          checked={step.asks !== null}
          onChange={({ target }) => set({ asks: target.checked ? { code: '', words: '', choices: [] } : null })}
        />
        {words.asks}
      </label>
      {step.asks === null ? null : <AskFields asks={step.asks} onChange={(asks) => set({ asks })} />}
    </>
  );
}

function AskFields(props: {
  readonly asks: NonNullable<WrittenStep['asks']>;
  readonly onChange: (asks: NonNullable<WrittenStep['asks']>) => void;
}) {
  const { asks, onChange } = props;
  const { edit: words } = useWords().procedures;
  return (
    <div className="ask-fields">
      <TextField label={words.question} value={asks.words} onChange={(told) => onChange({ ...asks, words: told })} />
      <TextField
        label={words.questionCode}
        hint={words.codeHint}
        value={asks.code}
        onChange={(code) => onChange({ ...asks, code })}
      />
      <ListEditor
        title={words.choices}
        items={asks.choices}
        fresh={{ code: '', words: '' }}
        onChange={(choices) => onChange({ ...asks, choices: [...choices] })}
        row={(choice, change) => (
          <>
            <TextField
              label={words.choice}
              value={choice.words}
              onChange={(told) => change({ ...choice, words: told })}
            />
            <TextField label={words.choiceCode} value={choice.code} onChange={(code) => change({ ...choice, code })} />
          </>
        )}
      />
    </div>
  );
}
