import { useState } from 'react';
import type { ProofStanding } from '#contracts/hand-back.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

interface ProofsProps {
  readonly jobId: string;
  readonly proofs: readonly ProofStanding[];
  readonly open: boolean;
}

/** The sheet's proofs, how each stands, and for those who may: recording one, signing one. */
export function Proofs({ jobId, proofs, open }: ProofsProps) {
  const { handBack: words } = useWords().counter;
  const [recording, setRecording] = useState<ProofStanding | null>(null);
  return (
    <div id="proofs">
      <h3>{words.proofs}</h3>
      {proofs.length === 0 ? <p className="note">{words.noProofs}</p> : null}
      <ul className="proofs">
        {proofs.map((proof) => (
          <ProofLine key={proof.code} proof={proof} open={open} onRecord={() => setRecording(proof)} />
        ))}
      </ul>
      {recording === null ? null : <RecordDialog jobId={jobId} proof={recording} onClose={() => setRecording(null)} />}
    </div>
  );
}

interface LineProps {
  readonly proof: ProofStanding;
  readonly open: boolean;
  readonly onRecord: () => void;
}

function ProofLine({ proof, open, onRecord }: LineProps) {
  const { handBack: words } = useWords().counter;
  const format = useFormat();
  const bench = useMay('bench');
  const me = useSession().person.id;
  const writing = useWrite();
  const { last } = proof;
  const canSign = bench && open && last?.passed === true && !last.stale && last.signedBy === null && last.by.id !== me;
  return (
    <li>
      <div>
        <b>{proof.name}</b>{' '}
        {last === null ? (
          <span className="note">{words.notTried}</span>
        ) : (
          <span className={last.passed && !last.stale ? '' : 'hot'}>{last.passed ? words.passed : words.failed}</span>
        )}
        {last === null ? null : (
          <p className="note">
            {last.words}. {words.by(last.by.name, format.since(last.at))},{' '}
            {last.stale ? words.stale : last.signedBy === null ? words.unsigned : words.signed(last.signedBy.name)}
          </p>
        )}
        <Refusal error={writing.error} />
      </div>
      {canSign ? (
        <Button
          aria-label={words.signOf(proof.name)}
          disabled={writing.busy}
          onClick={() => writing.write({ path: `/proofs/${last.id}/sign-off`, body: {} })}
        >
          {words.sign}
        </Button>
      ) : null}
      {bench && open ? (
        <Button aria-label={words.recordOf(proof.name)} onClick={onRecord}>
          {words.record}
        </Button>
      ) : null}
    </li>
  );
}

interface RecordProps {
  readonly jobId: string;
  readonly proof: ProofStanding;
  readonly onClose: () => void;
}

function RecordDialog({ jobId, proof, onClose }: RecordProps) {
  const { handBack: words, amend } = useWords().counter;
  const [outcome, setOutcome] = useState<'passed' | 'failed' | null>(null);
  const [found, setFound] = useState('');
  const writing = useWrite<{ id: string }>();
  const ready = outcome !== null && found.trim() !== '' && !writing.busy;
  return (
    <Dialog title={proof.name} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (!ready) return;
          const body = { proof: proof.code, passed: outcome === 'passed', words: found.trim() };
          writing.write({ path: `/jobs/${jobId}/proofs`, body }, onClose);
        }}
      >
        <p>{proof.words}</p>
        {proof.caution === '' ? null : (
          <p className="caution">
            <b>{proof.caution}</b>
          </p>
        )}
        <Choice
          label={words.outcome}
          value={outcome}
          onChange={setOutcome}
          options={[
            { value: 'passed', label: words.passed },
            { value: 'failed', label: words.failed },
          ]}
        />
        <Field label={words.found}>
          {(input) => (
            <textarea
              {...input}
              rows={2}
              maxLength={500}
              value={found}
              onChange={({ target }) => setFound(target.value)}
            />
          )}
        </Field>
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={!ready}>
            {words.record}
          </Button>
          <Button onClick={onClose}>{amend.cancel}</Button>
        </div>
      </form>
    </Dialog>
  );
}
