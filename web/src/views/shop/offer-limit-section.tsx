import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CustodyRule } from '#contracts/custody-past.ts';
import { read } from '../../app/api.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

function OfferLimitDialog({ rule, onClose }: { readonly rule: CustodyRule; readonly onClose: () => void }) {
  const words = useWords().shop.offers;
  const writing = useWrite();
  const [minutes, setMinutes] = useState(String(rule.answerMinutes));
  const isWhole = /^\d{1,5}$/.test(minutes.trim());
  return (
    <SetUpDialog
      title={words.title}
      writing={writing}
      keep={() => writing.write({ path: '/custody/rule', body: { answerMinutes: Number(minutes) } }, onClose)}
      onClose={onClose}
      said={['/answerMinutes']}
      ready={isWhole}
    >
      <TextField
        label={words.minutes}
        hint={words.hint}
        value={minutes}
        onChange={setMinutes}
        pointer="/answerMinutes"
        error={writing.error}
        numeric
        most={5}
      />
    </SetUpDialog>
  );
}

/** How long an offered handover may wait for its answer before it is said to be overdue. */
export function OfferLimitSection() {
  const { offers: words, change } = useWords().shop;
  const { data: rule } = useQuery({
    queryKey: ['custody-rule'],
    queryFn: ({ signal }) => read<CustodyRule>('/custody/rule', signal),
  });
  const [changing, setChanging] = useState(false);
  if (rule === undefined) return null;
  return (
    <section aria-labelledby="shop-offers">
      <div className="set-up-head">
        <h2 id="shop-offers">{words.title}</h2>
        <Button onClick={() => setChanging(true)}>{change}</Button>
      </div>
      <p className="note">{words.why}</p>
      <p>
        <b>{words.line(rule.answerMinutes)}</b>
      </p>
      {changing ? <OfferLimitDialog rule={rule} onClose={() => setChanging(false)} /> : null}
    </section>
  );
}
