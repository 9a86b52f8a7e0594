import { useState } from 'react';
import type { CountDecided, CountLine } from '#contracts/counts.ts';
import { Refusal } from '../../../app/refusal.tsx';
import { useMay } from '../../../app/session.tsx';
import { useWrite } from '../../../app/write.ts';
import { Button } from '../../../kit/button.tsx';
import { Field } from '../../../kit/field.tsx';
import { useWords } from '../../../words/words.tsx';
import { TakenBackList } from './handed.tsx';

/** After a recount: the last count is taken for true, or another is wanted, with a reason. */
export function DecideForm({ sheetId, line }: { readonly sheetId: string; readonly line: CountLine }) {
  const { decide: words, sheet } = useWords().counts;
  const may = useMay('settle counts');
  const writing = useWrite<CountDecided>();
  const [reason, setReason] = useState('');
  if (!may) return <p className="note">{words.who}</p>;
  const decide = (decision: 'adjust' | 'count again') =>
    writing.write({
      path: `/count-sheets/${sheetId}/decisions`,
      body: { lineId: line.id, decision, reason: reason.trim() },
    });
  const ready = reason.trim() !== '' && !writing.busy;
  return (
    <form
      className="decide-count"
      aria-label={`${words.title}: ${line.part.name}`}
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) decide('adjust');
      }}
    >
      <Field label={sheet.reason}>
        {(input) => (
          <input {...input} maxLength={300} value={reason} onChange={({ target }) => setReason(target.value)} />
        )}
      </Field>
      <div className="kit-acts">
        <Button type="submit" kind="main" disabled={!ready}>
          {words.adjust}
        </Button>
        <Button disabled={!ready} onClick={() => decide('count again')}>
          {words.again}
        </Button>
      </div>
      <Refusal error={writing.error} />
      <TakenBackList shortages={writing.reply?.shortages ?? []} />
    </form>
  );
}
