import { useState } from 'react';
import { newKey } from '../../app/key.ts';
import { keepPhoto } from '../../app/photo-outbox.ts';
import { sendPhotosNow } from '../../app/photo-sending.ts';
import { useSession } from '../../app/session.tsx';

/** A photo of an engine that is not taken in yet. */
export interface FirstPhoto {
  readonly key: string;
  readonly file: File;
  readonly caption: string;
  readonly takenAt: string;
}

/** Photos taken while an engine is being taken in: they wait in the form until there is a job that they belong to. */
export function useFirstPhotos() {
  const { person } = useSession();
  const [photos, setPhotos] = useState<readonly FirstPhoto[]>([]);
  const add = (files: readonly File[], caption: string) => {
    const takenAt = new Date().toISOString();
    setPhotos((before) => [...before, ...files.map((file) => ({ key: newKey(), file, caption, takenAt }))]);
  };
  const drop = (key: string) => setPhotos((before) => before.filter((photo) => photo.key !== key));
  /** Gives them into the terminal's keeping, from where they are sent, whatever becomes of the line meanwhile. */
  const giveTo = async (jobId: string) => {
    for (const { file, caption, takenAt } of photos) {
      const of = { personId: person.id, person: person.name, jobId, of: {}, caption, name: file.name, file };
      await keepPhoto({ ...of, happenedAt: takenAt });
    }
    sendPhotosNow();
  };
  return { photos, add, drop, giveTo };
}
