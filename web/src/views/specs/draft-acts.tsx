import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { Revision } from '#contracts/spec-sheets.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { ChangesTable } from './changes-table.tsx';
import { NoteDialog } from './note-dialog.tsx';
import { SheetImportDialog } from './sheet-import-dialog.tsx';
import type { Draft } from './use-draft.ts';

type Doing = 'note' | 'import' | 'publish' | 'discard';
type Props = { readonly draft: Draft; readonly revisions: readonly Revision[] };

/** What a lead may do with a draft as a whole. */
export function DraftActs({ draft, revisions }: Props) {
  const { specs: words } = useWords();
  const [doing, setDoing] = useState<Doing | null>(null);
  const close = () => setDoing(null);
  return (
    <div className="acts no-print">
      <Button kind="main" onClick={() => setDoing('publish')}>
        {words.publishOpen}
      </Button>
      <Button onClick={() => setDoing('import')}>{words.importOpen}</Button>
      <Button onClick={() => setDoing('note')}>{words.noteOpen}</Button>
      <Button onClick={() => setDoing('discard')}>{words.discard}</Button>
      {doing === 'note' ? <NoteDialog draft={draft} onClose={close} /> : null}
      {doing === 'import' ? <SheetImportDialog draft={draft} onClose={close} /> : null}
      {doing === 'publish' ? <PublishDialog draft={draft} revisions={revisions} onClose={close} /> : null}
      {doing === 'discard' ? <DiscardDialog draft={draft} onClose={close} /> : null}
    </div>
  );
}

function PublishDialog({ draft, revisions, onClose }: Props & { readonly onClose: () => void }) {
  const { publish: words, close } = useWords().specs;
  const writing = useWrite();
  const before = revisions.find(({ publishedAt }) => publishedAt !== null);
  const inShop = revisions.reduce((sum, { openJobs }) => sum + openJobs, 0);
  const publish = () =>
    writing.write({ path: `/spec-revisions/${draft.revisionId}/publish`, ifMatch: draft.etag }, onClose);
  return (
    <Dialog
      title={words.title(draft.number)}
      open
      onClose={onClose}
      acts={<DialogActs act={words.act} ready={!writing.busy} onAct={publish} close={close} onClose={onClose} />}
    >
      <div className="form">
        <p>{words.what}</p>
        <p>{words.stay(inShop)}</p>
        <h3>{words.changes}</h3>
        {before === undefined ? <p>{words.first}</p> : <ChangesTable revisionId={draft.revisionId} since={before.id} />}
        <Refusal error={writing.error} />
      </div>
    </Dialog>
  );
}

function DiscardDialog({ draft, onClose }: { readonly draft: Draft; readonly onClose: () => void }) {
  const { specs: words } = useWords();
  const navigate = useNavigate();
  const writing = useWrite();
  const discard = () =>
    writing.write(
      { path: `/spec-revisions/${draft.revisionId}`, method: 'DELETE', ifMatch: draft.etag },
      () => void navigate({ to: '/specs' }),
    );
  return (
    <Dialog
      title={words.discard}
      open
      onClose={onClose}
      acts={
        <DialogActs act={words.discard} ready={!writing.busy} onAct={discard} close={words.close} onClose={onClose} />
      }
    >
      <p>{words.discardWhat(draft.number)}</p>
      <Refusal error={writing.error} />
    </Dialog>
  );
}
