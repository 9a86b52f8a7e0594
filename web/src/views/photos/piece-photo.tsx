import { useQuery } from '@tanstack/react-query';
import type { Opening } from '#contracts/openings.ts';
import { PhotoButton } from './photo-button.tsx';
import { PhotoThumbnail } from './photo-thumbnail.tsx';
import { photosQuery } from './photos-query.ts';

interface PiecePhotoProps {
  readonly opening: Opening;
  readonly piece: Opening['pieces'][number];
}

/** Beside a piece of the tally: the newest photo of it, from which the earlier ones are reached, and the camera. */
export function PiecePhoto({ opening: { engineId, jobId }, piece }: PiecePhotoProps) {
  const photos =
    useQuery(photosQuery(engineId)).data?.items.filter(({ of }) => of.kind === 'piece' && of.id === piece.id) ?? [];
  const [newest] = photos;
  return (
    <span className="piece-photo">
      {newest === undefined ? null : <PhotoThumbnail small photo={newest} among={photos} />}
      <PhotoButton small target={{ jobId, of: { piece: piece.id }, words: piece.name }} />
    </span>
  );
}
