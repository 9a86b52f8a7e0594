import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { read } from '../../app/api.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

interface NumberRuleProps<Fact extends string> {
  readonly id: string;
  /** Where the rule is read and set: one whole number, under this name. */
  readonly path: string;
  readonly fact: Fact;
  readonly mostDigits: number;
  /** Nothing keyed says 0, and 0 is shown as nothing keyed. */
  readonly emptyIsNone?: boolean;
  readonly words: {
    readonly title: string;
    readonly why: string;
    readonly label: string;
    readonly hint: string;
    readonly line: (count: number) => string;
  };
}

type DialogProps<Fact extends string> = NumberRuleProps<Fact> & {
  readonly now: number;
  readonly onClose: () => void;
};

function NumberRuleDialog<Fact extends string>(props: DialogProps<Fact>) {
  const { path, fact, mostDigits, emptyIsNone = false, words, now, onClose } = props;
  const writing = useWrite();
  const [keyed, setKeyed] = useState(emptyIsNone && now === 0 ? '' : String(now));
  const isWhole = new RegExp(`^\\d{${emptyIsNone ? 0 : 1},${mostDigits}}$`).test(keyed.trim());
  const pointer = `/${fact}`;
  return (
    <SetUpDialog
      title={words.title}
      writing={writing}
      keep={() => writing.write({ path, body: { [fact]: Number(keyed) } }, onClose)}
      onClose={onClose}
      said={[pointer]}
      ready={isWhole}
    >
      <TextField
        label={words.label}
        hint={words.hint}
        value={keyed}
        onChange={setKeyed}
        pointer={pointer}
        error={writing.error}
        numeric
        most={mostDigits}
      />
    </SetUpDialog>
  );
}

/** A rule of the shop that is one number: what it is for, how it stands, and a dialog to change it. */
export function NumberRuleSection<Fact extends string>(props: NumberRuleProps<Fact>) {
  const { id, path, fact, words } = props;
  const { change } = useWords().shop;
  const { data: rule } = useQuery({
    queryKey: ['shop-rule', path],
    queryFn: ({ signal }) => read<Readonly<Record<Fact, number>>>(path, signal),
  });
  const [changing, setChanging] = useState(false);
  if (rule === undefined) return null;
  return (
    <section aria-labelledby={id}>
      <div className="set-up-head">
        <h2 id={id}>{words.title}</h2>
        <Button onClick={() => setChanging(true)}>{change}</Button>
      </div>
      <p className="note">{words.why}</p>
      <p>
        <b>{words.line(rule[fact])}</b>
      </p>
      {changing ? <NumberRuleDialog {...props} now={rule[fact]} onClose={() => setChanging(false)} /> : null}
    </section>
  );
}

/** How long an offered handover may wait for its answer before it is said to be overdue. */
export function OfferLimitSection() {
  const { offers } = useWords().shop;
  return <NumberRuleSection id="shop-offers" path="/custody/rule" fact="answerMinutes" mostDigits={5} words={offers} />;
}

/** How long what is reserved for a job without a yes is held before it goes back to stock. */
export function HoldRuleSection() {
  const { holds } = useWords().shop;
  return (
    <NumberRuleSection id="shop-holds" path="/stores/hold-rule" fact="days" mostDigits={3} emptyIsNone words={holds} />
  );
}
