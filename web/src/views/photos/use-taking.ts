import { useState } from 'react';
import { MOST_PHOTO_BYTES } from '#domain/files/limits.ts';
import { keepPhoto } from '../../app/photo-outbox.ts';
import { sendPhotosNow } from '../../app/photo-sending.ts';
import { useSession } from '../../app/session.tsx';
import { useWords } from '../../words/words.tsx';
import type { PhotoTarget } from './photos-query.ts';

/** A file that a phone gives no type for is let through: the server looks inside. */
const mayBe = ({ type }: File): boolean => type === '' || type.startsWith('image/') || type === 'application/pdf';

/** Takes what a camera or a file dialog gives into the terminal's keeping, from where it is sent; says what it would not take. */
export function useTaking({ jobId, of }: PhotoTarget, caption: string) {
  const { photos: words } = useWords();
  const { person } = useSession();
  const [taken, setTaken] = useState(0);
  const [faults, setFaults] = useState<readonly string[]>([]);
  const faultOf = (file: File): string | undefined => {
    if (!mayBe(file)) return words.wrongType(file.name);
    return file.size > MOST_PHOTO_BYTES ? words.tooLarge(file.name, MOST_PHOTO_BYTES / 1_048_576) : undefined;
  };
  const take = async (files: readonly File[]) => {
    setFaults(files.flatMap((file) => faultOf(file) ?? []));
    const good = files.filter((one) => faultOf(one) === undefined);
    setTaken((before) => before + good.length);
    for (const file of good) {
      await keepPhoto({ personId: person.id, person: person.name, jobId, of, caption, name: file.name, file });
    }
    sendPhotosNow();
  };
  return { take: (files: readonly File[]) => void take(files), faults, taken };
}
