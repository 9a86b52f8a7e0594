import type { Photo } from '#contracts/photos.ts';
import { useWords } from '../../words/words.tsx';

/** What a photo is called: its caption, else what it shows, else its file's name. */
export function usePhotoName() {
  const { photos: words } = useWords();
  return ({ caption, of, name, type }: Photo): string =>
    caption || of.words || (type === 'application/pdf' ? name : '') || words.unnamed;
}
