import { useState } from 'react';
import type { HandBackInBoxes, PackingList } from '#contracts/boxes.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { WordsField } from '../../kit/words-field.tsx';
import { useWords } from '../../words/words.tsx';
import { CountLines, useBlanks } from '../bench/counting.tsx';
import { useCounts } from '../bench/counts.ts';
import '../bench/hands.css';

type Cause = HandBackInBoxes['cause'];

/** The lines of each box, as they are counted into it. */
const boxesOf = ({ boxes }: PackingList) =>
  boxes.map(({ tray, lines }) => ({
    tray,
    lines: lines.map(({ pieceId, name }) => ({
      id: `${tray?.id} ${pieceId}`,
      trayId: tray?.id ?? null,
      pieceId,
      name,
    })),
  }));

/** A lead counts every line into its box and says why the engine goes. */
export function BoxesForm({ list }: { readonly list: PackingList }) {
  const { boxes: words } = useWords();
  if (list.depth === null) return <p className="banner no-print">{words.notOpen}</p>;
  if (list.reasons.length > 0) {
    return (
      <section className="panel no-print">
        <h2>{words.held}</h2>
        <ul>
          {list.reasons.map((reason) => (
            <li key={reason.words}>{reason.words}</li>
          ))}
        </ul>
      </section>
    );
  }
  return <Counting list={list} />;
}

function Counting({ list }: { readonly list: PackingList }) {
  const { boxes: words } = useWords();
  const [cause, setCause] = useState<Cause | null>(list.saidNo ? 'no' : null);
  const [reason, setReason] = useState('');
  const [note, setNote] = useState('');
  const writing = useWrite<{ handedBackAt: string }>();
  const boxes = boxesOf(list);
  const lines = boxes.flatMap((box) => box.lines);
  const counts = useCounts(`boxes ${list.jobId}`);
  const blanks = useBlanks(counts, lines);
  const ready = cause !== null && reason.trim() !== '' && !writing.busy;
  const give = () =>
    writing.write({
      path: `/jobs/${list.jobId}/hand-back-in-boxes`,
      body: {
        cause,
        reason: reason.trim(),
        counts: lines.map(({ id, trayId, pieceId }) => ({ trayId, pieceId, count: counts.of(id) })),
        ...(note.trim() === '' ? {} : { note: note.trim() }),
      },
    });
  return (
    <form
      className="form panel no-print"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) blanks.commit(give);
      }}
    >
      <h2>{words.give}</h2>
      <Choice
        label={words.why}
        value={cause}
        onChange={setCause}
        options={[
          { value: 'no', label: words.causes.no, disabled: !list.saidNo, note: list.saidNo ? undefined : words.noNo },
          { value: 'withdrawn', label: words.causes.withdrawn },
        ]}
      />
      <WordsField label={words.reason} hint={words.reasonHint} most={500} value={reason} onChange={setReason} />
      <h3>{words.counted}</h3>
      <p className="note">{words.countedHint}</p>
      {boxes.map(({ tray, lines: inside }) => {
        const box = tray === null ? words.beside : words.tray(tray.name);
        return (
          <section key={tray?.id ?? 'beside'} className="count-tray">
            <h4>{box}</h4>
            <CountLines label={box} lines={inside} counts={counts} disabled={writing.busy} blind />
          </section>
        );
      })}
      {blanks.note}
      <WordsField label={words.note} most={1000} value={note} onChange={setNote} />
      <Refusal error={writing.error} />
      <div className="acts">
        <Button type="submit" kind="main" disabled={!ready}>
          {words.give}
        </Button>
      </div>
    </form>
  );
}
