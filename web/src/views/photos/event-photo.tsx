import { useQuery } from '@tanstack/react-query';
import { useWords } from '../../words/words.tsx';
import { PhotoThumbnail } from './photo-thumbnail.tsx';
import { photosQuery } from './photos-query.ts';

/** The photo that a line of the timeline tells of; that it was removed, where it was. */
export function EventPhoto({ engineId, photoId }: { readonly engineId: string; readonly photoId: string }) {
  const { photos: words } = useWords();
  const { data } = useQuery(photosQuery(engineId));
  const photo = data?.items.find(({ id }) => id === photoId);
  if (photo === undefined) {
    const gone = data?.removed.some(({ id }) => id === photoId) === true;
    return gone ? <span className="note line">{words.removed}</span> : null;
  }
  return <PhotoThumbnail photo={photo} among={data?.items ?? []} />;
}
