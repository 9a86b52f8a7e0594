import { useState } from 'react';
import type { CountRule } from '#contracts/counts.ts';
import { Refusal } from '../../../app/refusal.tsx';
import { useMay } from '../../../app/session.tsx';
import { faultAt, useWrite } from '../../../app/write.ts';
import { Button } from '../../../kit/button.tsx';
import { Field } from '../../../kit/field.tsx';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { Tick, TickBar, type Ticks, useTicks } from '../ticks.tsx';
import { RuleChangeDialog } from './rule-change-dialog.tsx';

/** How far a count may be off and how often a class is counted; who may set up the shop sets them here. */
export function CountRules({ rules }: { readonly rules: readonly CountRule[] }) {
  const { rules: words } = useWords().counts;
  const may = useMay('set up');
  const format = useFormat();
  const { ruleChanges: several } = useWords();
  const shown = rules.map(({ class: of }) => of);
  const ticks = useTicks(shown);
  return (
    <section className="count-rules">
      <h2>{words.title}</h2>
      <p>{words.how}</p>
      {may ? (
        <TickBar
          ticks={ticks}
          shown={shown}
          change={several.open}
          dialog={(classes, close) => (
            <RuleChangeDialog classes={shown.filter((of) => classes.includes(of))} onClose={close} />
          )}
        />
      ) : null}
      {rules.map((rule) =>
        may ? (
          <RuleForm
            key={`${rule.class} ${rule.tolerancePieces} ${rule.tolerancePercent} ${rule.everyDays}`}
            rule={rule}
            ticks={ticks}
          />
        ) : (
          <p key={rule.class}>
            <b>{words.of(rule.class)}:</b>{' '}
            {words.told(rule.tolerancePieces, format.decimal(rule.tolerancePercent), rule.everyDays)},{' '}
            {rule.setBy === null ? words.usual : words.setBy(rule.setBy)}
          </p>
        ),
      )}
    </section>
  );
}

function RuleForm({ rule, ticks }: { readonly rule: CountRule; readonly ticks: Ticks }) {
  const { rules: words } = useWords().counts;
  const writing = useWrite();
  const [entry, setEntry] = useState({
    pieces: String(rule.tolerancePieces),
    percent: rule.tolerancePercent,
    days: String(rule.everyDays),
  });
  const fields = [
    ['pieces', words.pieces, '/tolerancePieces'],
    ['percent', words.percent, '/tolerancePercent'],
    ['days', words.days, '/everyDays'],
  ] as const;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const body = {
          class: rule.class,
          tolerancePieces: Number(entry.pieces),
          tolerancePercent: entry.percent.trim(),
          everyDays: Number(entry.days),
        };
        writing.write({ path: '/count-rules', body });
      }}
    >
      <h3>
        <Tick ticks={ticks} of={{ id: rule.class, name: words.of(rule.class) }} />
        {words.of(rule.class)}{' '}
        <span className="note">{rule.setBy === null ? words.usual : words.setBy(rule.setBy)}</span>
      </h3>
      <div className="rule-fields">
        {fields.map(([name, label, pointer]) => (
          <Field key={name} label={label} error={faultAt(writing.error, pointer)}>
            {(input) => (
              <input
                {...input}
                inputMode="decimal"
                maxLength={6}
                value={entry[name]}
                onChange={({ target }) => setEntry({ ...entry, [name]: target.value })}
              />
            )}
          </Field>
        ))}
        <Button type="submit" disabled={writing.busy} aria-label={words.setOf(rule.class)}>
          {words.set}
        </Button>
      </div>
      <Refusal error={writing.error} />
    </form>
  );
}
