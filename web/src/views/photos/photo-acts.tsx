import { useState } from 'react';
import type { Photo } from '#contracts/photos.ts';
import { ReasonForm } from '../../app/reason-form.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

function NoteForm({ photo }: { readonly photo: Photo }) {
  const { photos: words } = useWords();
  const [caption, setCaption] = useState(photo.caption);
  const [onSheet, setOnSheet] = useState(photo.onSheet);
  const writing = useWrite<Photo>();
  const keep = (printed: boolean) => {
    setOnSheet(printed);
    writing.write({ path: `/photos/${photo.id}/notes`, body: { caption: caption.trim(), onSheet: printed } });
  };
  return (
    <form
      className="photo-note"
      onSubmit={(event) => {
        event.preventDefault();
        keep(onSheet);
      }}
    >
      <Field label={words.note}>
        {(input) => (
          <textarea
            {...input}
            rows={2}
            maxLength={300}
            value={caption}
            onChange={({ target }) => setCaption(target.value)}
          />
        )}
      </Field>
      <Button type="submit" disabled={writing.busy || caption.trim() === photo.caption}>
        {words.keepNote}
      </Button>
      {photo.width === null ? null : (
        <label className="photo-check">
          <input
            type="checkbox"
            checked={writing.error === null ? onSheet : photo.onSheet}
            onChange={({ target }) => keep(target.checked)}
          />
          {words.onSheet}
        </label>
      )}
      <Refusal error={writing.error} />
    </form>
  );
}

function RemoveForm({ photo, onRemoved }: { readonly photo: Photo; readonly onRemoved: () => void }) {
  const { photos: words } = useWords();
  const [asking, setAsking] = useState(false);
  if (!asking) return <Button onClick={() => setAsking(true)}>{words.remove}</Button>;
  return (
    <ReasonForm
      formClass="photo-note"
      actsClass="photo-ends"
      label={words.removeWhy}
      hint={words.removeHow}
      most={300}
      go={words.removeGo}
      cancel={words.notNow}
      path={`/photos/${photo.id}/remove`}
      bodyOf={(reason) => ({ reason })}
      onCancel={() => setAsking(false)}
      onDone={onRemoved}
    />
  );
}

/** What may be done with a photo by whoever looks at it. */
export function PhotoActs({ photo, onRemoved }: { readonly photo: Photo; readonly onRemoved: () => void }) {
  const { person } = useSession();
  const bench = useMay('bench');
  const counter = useMay('counter');
  const lead = useMay('lead');
  return (
    <>
      {photo.by.id === person.id || bench || counter ? (
        <NoteForm photo={photo} />
      ) : photo.caption === '' ? null : (
        <p>{photo.caption}</p>
      )}
      {lead ? <RemoveForm photo={photo} onRemoved={onRemoved} /> : null}
    </>
  );
}
