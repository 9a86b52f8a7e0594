import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { ProcedureDocument, ProcedureKept } from '#contracts/procedure-documents.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { FaultList } from '../specs/fault-list.tsx';
import { LinesField, TextField } from '../specs/form-fields.tsx';
import { usePlaceWords } from './place-words.ts';
import { faultsQuery } from './procedures-queries.ts';
import { StepForm } from './step-form.tsx';
import { StepOrder } from './step-order.tsx';
import { Changes, FaultsFound } from './version-facts.tsx';
import type { WrittenStep } from './written-step.ts';

interface DraftEditorProps {
  readonly versionId: string;
  readonly document: ProcedureDocument;
  readonly etag: string;
  /** The version in force; null: none is published. */
  readonly before: string | null;
}

const freshStep = (section: string): WrittenStep => ({
  section,
  title: '',
  words: '',
  cautions: [],
  pieces: [],
  putIn: [],
  fastenerSet: null,
  readings: [],
  secondPerson: false,
  photo: '',
  asks: null,
  onlyIf: [],
});

/** Writes a draft as a whole: steps in their order, one of them open; nothing is kept before it is said so. */
export function DraftEditor({ versionId, document, etag, before }: DraftEditorProps) {
  const { procedures: words } = useWords();
  const navigate = useNavigate();
  const [written, setWritten] = useState(document);
  const [at, setAt] = useState(0);
  const faults = useQuery(faultsQuery(versionId)).data?.items ?? [];
  const keeping = useWrite<ProcedureKept>();
  const publishing = useWrite();
  const discarding = useWrite();
  const [discards, setDiscards] = useState(false);
  const changed = written !== document;
  const { steps } = written;
  const place = usePlaceWords();
  const set = (part: Partial<ProcedureDocument>) => setWritten({ ...written, ...part });
  const path = `/procedure-versions/${versionId}`;
  const keep = () => keeping.write({ path: `${path}/procedure.json`, method: 'PUT', body: written, ifMatch: etag });
  const publish = () => publishing.write({ path: `${path}/publish`, ifMatch: etag });
  const discard = () =>
    discarding.write({ path, method: 'DELETE', ifMatch: etag }, () => void navigate({ to: '/procedures' }));
  const step = steps[at];
  return (
    <>
      <div className="acts draft-acts">
        <Button kind={changed ? 'main' : 'plain'} disabled={!changed || keeping.busy} onClick={keep}>
          {words.edit.keep}
        </Button>
        <Button
          kind={changed ? 'plain' : 'main'}
          disabled={changed || faults.length > 0 || publishing.busy}
          onClick={publish}
        >
          {words.edit.publish}
        </Button>
        {discards ? (
          <>
            <Button disabled={discarding.busy} onClick={discard}>
              {words.edit.discardGo}
            </Button>
            <Button onClick={() => setDiscards(false)}>{words.cancel}</Button>
          </>
        ) : (
          <Button onClick={() => setDiscards(true)}>{words.edit.discard}</Button>
        )}
        <p className="note" role="status">
          {changed ? words.edit.notKept : words.edit.kept}
        </p>
      </div>
      <FaultList error={keeping.error ?? publishing.error ?? discarding.error} title={words.edit.wrong} place={place} />
      {changed ? null : <FaultsFound faults={faults} onGoTo={(number) => setAt(number - 1)} />}
      {before === null ? null : <Changes after={written} before={before} />}
      <div className="form head-form">
        <TextField label={words.edit.name} value={written.name} onChange={(name) => set({ name })} />
        <LinesField label={words.edit.note} value={written.note} onChange={(note) => set({ note })} />
      </div>
      <div className="editor">
        <StepOrder
          steps={steps}
          at={at}
          onChoose={setAt}
          onChange={(next, place) => {
            set({ steps: [...next] });
            setAt(place);
          }}
          fresh={() => freshStep(step?.section ?? '')}
        />
        {step === undefined ? (
          <p className="note">{words.edit.noStep}</p>
        ) : (
          <StepForm
            key={at}
            step={step}
            before={steps.slice(0, at)}
            onChange={(next) => set({ steps: steps.with(at, next) })}
          />
        )}
      </div>
    </>
  );
}
