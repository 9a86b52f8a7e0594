import { useQuery } from '@tanstack/react-query';
import type { Photo } from '#contracts/photos.ts';
import { usePhotosKept } from '../../app/photo-outbox.ts';
import { useWords } from '../../words/words.tsx';
import { KeptPhotos } from './kept-photos.tsx';
import { PhotoButton } from './photo-button.tsx';
import { PhotoStrip } from './photo-strip.tsx';
import { type PhotoTarget, photosQuery } from './photos-query.ts';

interface PhotosHereProps {
  readonly engineId: string;
  readonly target: PhotoTarget;
  /** Which of the engine's photos stand here. */
  readonly which: (photo: Photo) => boolean;
}

/** At one thing, the button that takes a photo of it and those that were taken. */
export function PhotosHere({ engineId, target, which }: PhotosHereProps) {
  const { photos: words } = useWords();
  const photos = useQuery(photosQuery(engineId)).data?.items.filter(which) ?? [];
  const own = JSON.stringify(target.of);
  const kept = usePhotosKept().filter(({ jobId, of }) => jobId === target.jobId && JSON.stringify(of) === own);
  return (
    <div className="photos-here">
      <PhotoButton target={target} />
      <KeptPhotos photos={kept} />
      <PhotoStrip photos={photos} label={words.title} />
    </div>
  );
}
