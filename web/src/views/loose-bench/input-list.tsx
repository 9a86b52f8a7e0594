import type { InputFault } from '#domain/build/calculations/faults.ts';
import { type CalculationKind, inputsOf } from '#domain/build/calculations/kinds.ts';
import { useWords } from '../../words/words.tsx';
import { type Entries, entryOf } from './entries.ts';
import { InputField } from './input-field.tsx';
import { nameIn } from './results.tsx';
import { SizesField } from './sizes-field.tsx';

interface ListProps {
  readonly kind: CalculationKind;
  readonly entries: Entries;
  readonly faults: readonly InputFault[];
  readonly change: (entries: Entries) => void;
}

/** Every input of a calculation; what is wrong with one stands beside it while it is keyed. */
export function InputList({ kind, entries, faults, change }: ListProps) {
  const { looseBench: words } = useWords();
  const say = ({ field, reason, bound }: InputFault): string => {
    const said = words.faults[reason](bound ?? '');
    const line = field.split('/')[1];
    return line === undefined ? said : words.linesOf(Number(line) + 1, said);
  };
  /** What is missing altogether is told once, with the results: an empty field is no mistake. */
  const wrong = (code: string): string | undefined => {
    const fault = faults.find(({ field, reason }) => field.split('/')[0] === code && reason !== 'missing');
    return fault === undefined ? undefined : say(fault);
  };
  return (
    <div className="loose-inputs">
      {Object.entries(inputsOf(kind)).map(([code, input]) => {
        const name = nameIn(words.inputs, code);
        const entry = entryOf(entries, code, input);
        const put = (next: typeof entry) => change({ [code]: next });
        if (input.sort === 'bores') {
          return <SizesField key={code} name={name} entry={entry} error={wrong(code)} change={put} />;
        }
        const hint = input.sort === 'lift-table' ? words.tableHint : nameOrNothing(words.hints, code);
        return (
          <InputField
            key={code}
            code={code}
            name={name}
            hint={hint}
            input={input}
            entry={entry}
            error={wrong(code)}
            change={put}
          />
        );
      })}
    </div>
  );
}

const nameOrNothing = (names: Readonly<Partial<Record<string, string>>>, code: string): string | undefined =>
  names[code];
