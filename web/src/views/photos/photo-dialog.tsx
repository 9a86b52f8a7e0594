import { useState } from 'react';
import { usePhotosKept } from '../../app/photo-outbox.ts';
import { useWords } from '../../words/words.tsx';
import { KeptPhotos } from './kept-photos.tsx';
import { PhotoSheet } from './photo-sheet.tsx';
import type { PhotoTarget } from './photos-query.ts';
import { useTaking } from './use-taking.ts';

/** Takes photos for a job; each is kept at once and sent from there, so several may be taken one after the other. */
export function PhotoDialog({ target, onClose }: { readonly target: PhotoTarget; readonly onClose: () => void }) {
  const { photos: words } = useWords();
  const [caption, setCaption] = useState('');
  const [since] = useState(() => Date.now());
  const { take, faults, taken } = useTaking(target, caption.trim());
  const kept = usePhotosKept().filter(
    ({ jobId, order, refusal }) => jobId === target.jobId && (order >= since || refusal !== null),
  );
  return (
    <PhotoSheet
      title={words.takeTitle(target.words)}
      caption={caption}
      onCaption={setCaption}
      onFiles={take}
      faults={faults}
      onClose={onClose}
    >
      <KeptPhotos photos={kept} />
      <p className="note" role="status">
        {taken === 0 ? '' : words.takenSo(taken, kept.length)}
      </p>
    </PhotoSheet>
  );
}
