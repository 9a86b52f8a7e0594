import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { OpeningRule } from '#contracts/opening-rules.ts';
import { read } from '../../app/api.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

const WEEK = [1, 2, 3, 4, 5, 6, 7] as const;

function LimitsDialog({ rule, onClose }: { readonly rule: OpeningRule; readonly onClose: () => void }) {
  const words = useWords().tally.rule;
  const writing = useWrite();
  const [uncovered, setUncovered] = useState(String(rule.uncoveredMinutes));
  const [covered, setCovered] = useState(String(rule.coveredMinutes / 60));
  const [note, setNote] = useState('');
  const [ends, setEnds] = useState(
    WEEK.map((weekday) => rule.shiftEnds.find((end) => end.weekday === weekday)?.endsAt ?? ''),
  );
  const body = {
    uncoveredMinutes: Number(uncovered),
    coveredMinutes: Math.round(Number(covered) * 60),
    shiftEnds: WEEK.flatMap((weekday, index) => {
      const at = (ends[index] ?? '').trim();
      return at === '' ? [] : [{ weekday, endsAt: at }];
    }),
    note,
  };
  return (
    <SetUpDialog
      title={words.title}
      writing={writing}
      keep={() => writing.write({ path: '/opening-rule', body }, onClose)}
      onClose={onClose}
      said={['/uncoveredMinutes', '/coveredMinutes', '/note']}
      ready={body.uncoveredMinutes > 0 && body.coveredMinutes > 0}
    >
      <div className="pair">
        <TextField
          label={words.uncovered}
          value={uncovered}
          onChange={setUncovered}
          pointer="/uncoveredMinutes"
          error={writing.error}
          numeric
          most={6}
        />
        <TextField
          label={words.covered}
          value={covered}
          onChange={setCovered}
          pointer="/coveredMinutes"
          error={writing.error}
          numeric
          most={6}
        />
      </div>
      <p>
        {words.shiftEnds}, {words.zone(rule.zone)}
      </p>
      <div className="pair cells">
        {words.days.map((day, index) => (
          <TextField
            key={day}
            label={day}
            value={ends[index] ?? ''}
            onChange={(value) => setEnds(ends.map((end, place) => (place === index ? value : end)))}
            pointer={`/shiftEnds/${index}/endsAt`}
            error={writing.error}
            most={5}
          />
        ))}
      </div>
      <TextField label={words.note} value={note} onChange={setNote} pointer="/note" error={writing.error} />
    </SetUpDialog>
  );
}

/** When an open engine raises its voice, and at what hour nothing may stand uncovered. */
export function OpenLimitsSection() {
  const words = useWords().tally.rule;
  const { change } = useWords().shop;
  const format = useFormat();
  const { data: rule } = useQuery({
    queryKey: ['opening-rule'],
    queryFn: ({ signal }) => read<OpeningRule>('/opening-rule', signal),
  });
  const [changing, setChanging] = useState(false);
  if (rule === undefined) return null;
  const days = rule.shiftEnds.map(({ weekday, endsAt }) => `${words.days[weekday - 1] ?? ''} ${endsAt}`).join(', ');
  return (
    <section aria-labelledby="shop-limits">
      <div className="set-up-head">
        <h2 id="shop-limits">{words.title}</h2>
        <Button onClick={() => setChanging(true)}>{change}</Button>
      </div>
      <p className="note">{words.why}</p>
      <p>
        <b>{words.line(rule.uncoveredMinutes, Math.round(rule.coveredMinutes / 6) / 10)}</b>
        {days === '' ? null : <span className="line">{days}</span>}
        <span className="note line">
          {rule.set === null ? words.first : words.by(rule.set.by.name, format.since(rule.set.at))}
        </span>
      </p>
      {changing ? <LimitsDialog rule={rule} onClose={() => setChanging(false)} /> : null}
    </section>
  );
}
