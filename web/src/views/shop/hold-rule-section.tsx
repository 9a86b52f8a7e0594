import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { HoldRule } from '#contracts/hold-rule.ts';
import { read } from '../../app/api.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

function HoldRuleDialog({ rule, onClose }: { readonly rule: HoldRule; readonly onClose: () => void }) {
  const words = useWords().shop.holds;
  const writing = useWrite();
  const [days, setDays] = useState(rule.days === 0 ? '' : String(rule.days));
  const isWhole = /^\d{0,3}$/.test(days.trim());
  return (
    <SetUpDialog
      title={words.title}
      writing={writing}
      keep={() => writing.write({ path: '/stores/hold-rule', body: { days: Number(days) } }, onClose)}
      onClose={onClose}
      said={['/days']}
      ready={isWhole}
    >
      <TextField
        label={words.days}
        hint={words.hint}
        value={days}
        onChange={setDays}
        pointer="/days"
        error={writing.error}
        numeric
        most={3}
      />
    </SetUpDialog>
  );
}

/** How long what is reserved for a job without a yes is held before it goes back to stock. */
export function HoldRuleSection() {
  const { holds: words, change } = useWords().shop;
  const { data: rule } = useQuery({
    queryKey: ['hold-rule'],
    queryFn: ({ signal }) => read<HoldRule>('/stores/hold-rule', signal),
  });
  const [changing, setChanging] = useState(false);
  if (rule === undefined) return null;
  return (
    <section aria-labelledby="shop-holds">
      <div className="set-up-head">
        <h2 id="shop-holds">{words.title}</h2>
        <Button onClick={() => setChanging(true)}>{change}</Button>
      </div>
      <p className="note">{words.why}</p>
      <p>
        <b>{words.line(rule.days)}</b>
      </p>
      {changing ? <HoldRuleDialog rule={rule} onClose={() => setChanging(false)} /> : null}
    </section>
  );
}
