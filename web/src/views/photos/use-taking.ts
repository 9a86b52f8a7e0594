import { useState } from 'react';
import { keepPhoto } from '../../app/photo-outbox.ts';
import { sendPhotosNow } from '../../app/photo-sending.ts';
import { useSession } from '../../app/session.tsx';
import type { PhotoTarget } from './photos-query.ts';
import { useGoodFiles } from './use-good-files.ts';

/** Takes what a camera or a file dialog gives into the terminal's keeping, from where it is sent. */
export function useTaking({ jobId, of }: PhotoTarget, caption: string) {
  const { person } = useSession();
  const [taken, setTaken] = useState(0);
  const keepAll = async (files: readonly File[]) => {
    setTaken((before) => before + files.length);
    for (const file of files) {
      await keepPhoto({ personId: person.id, person: person.name, jobId, of, caption, name: file.name, file });
    }
    sendPhotosNow();
  };
  return { ...useGoodFiles((files) => void keepAll(files)), taken };
}
