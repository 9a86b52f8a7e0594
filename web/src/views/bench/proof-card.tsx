import { useState } from 'react';
import type { ProofStanding } from '#contracts/hand-back.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

interface ProofCardProps {
  readonly jobId: string;
  readonly proof: ProofStanding;
}

function Last({ last }: { readonly last: NonNullable<ProofStanding['last']> }) {
  const { assemble } = useWords();
  const words = assemble.proofs;
  const { person } = useSession();
  const may = useMay('bench');
  const format = useFormat();
  const write = useWrite();
  const unsigned = last.passed && !last.stale && last.signedBy === null;
  return (
    <>
      <p>
        <b className={last.passed ? undefined : 'hot'}>{last.passed ? words.passed : words.failed}</b> {last.words}{' '}
        <span className="note">
          {words.recorded(last.by.name, format.since(last.at))}
          {last.signedBy === null ? '' : `, ${words.signed(last.signedBy.name)}`}
        </span>
      </p>
      {last.stale ? <p className="hot">{words.stale}</p> : null}
      {!unsigned ? null : last.by.id === person.id || !may ? (
        <p className="note">{words.secondPerson}</p>
      ) : (
        <Button disabled={write.busy} onClick={() => write.write({ path: `/proofs/${last.id}/sign-off`, body: {} })}>
          {words.sign}
        </Button>
      )}
      <Refusal error={write.error} />
    </>
  );
}

/** One proof: what is asked, how it went last, a second person's mark, and recording it. */
export function ProofCard({ jobId, proof }: ProofCardProps) {
  const { assemble } = useWords();
  const words = assemble.proofs;
  const may = useMay('bench');
  const write = useWrite();
  const [open, setOpen] = useState(false);
  const [how, setHow] = useState<'passed' | 'failed' | null>(null);
  const [seen, setSeen] = useState('');
  const record = () =>
    write.write(
      { path: `/jobs/${jobId}/proofs`, body: { proof: proof.code, passed: how === 'passed', words: seen.trim() } },
      () => {
        setOpen(false);
        setHow(null);
        setSeen('');
      },
    );
  return (
    <article className="proof">
      <h3>{proof.name}</h3>
      <p>{proof.words}</p>
      {proof.caution === '' ? null : <p className="caution">{proof.caution}</p>}
      {proof.last === null ? null : <Last last={proof.last} />}
      {!may ? null : !open ? (
        <Button onClick={() => setOpen(true)}>{proof.last === null ? words.first : words.again}</Button>
      ) : (
        <form
          className="form"
          onSubmit={(event) => {
            event.preventDefault();
            if (how !== null && seen.trim() !== '') record();
          }}
        >
          <Choice
            label={words.how}
            value={how}
            onChange={setHow}
            options={[
              { value: 'passed', label: words.passed },
              { value: 'failed', label: words.failed },
            ]}
          />
          <Field label={words.words} big>
            {(input) => (
              <input {...input} maxLength={500} value={seen} onChange={(event) => setSeen(event.target.value)} />
            )}
          </Field>
          <div className="acts">
            <Button big kind="main" type="submit" disabled={how === null || seen.trim() === '' || write.busy}>
              {words.record}
            </Button>
            <Button big onClick={() => setOpen(false)}>
              {words.cancel}
            </Button>
          </div>
          <Refusal error={write.error} />
        </form>
      )}
    </article>
  );
}
