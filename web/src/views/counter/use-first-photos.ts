import { useEffect, useState } from 'react';
import { diskStore } from '../../app/disk-store.ts';
import { newKey } from '../../app/key.ts';
import { keepPhoto } from '../../app/photo-outbox.ts';
import { sendPhotosNow } from '../../app/photo-sending.ts';
import { useSession } from '../../app/session.tsx';

/** A photo of an engine that is not taken in yet. */
export interface FirstPhoto {
  readonly key: string;
  readonly personId: string;
  readonly file: Blob;
  readonly name: string;
  readonly caption: string;
  readonly takenAt: string;
}

/** Apart from those that wait to be sent: these have no job yet. */
const onDisk = diskStore<FirstPhoto>('crosshatch-take-in', 'photos');

const without = (photos: readonly FirstPhoto[], key: string) => photos.filter((photo) => photo.key !== key);

/**
 * Photos taken while an engine is being taken in: they wait in the form until there is a job that they belong to. Those of
 * a take-in that was not finished, by the same person at this terminal, are offered: which engine they show, they know.
 */
export function useFirstPhotos() {
  const { person } = useSession();
  const [photos, setPhotos] = useState<readonly FirstPhoto[]>([]);
  const [earlier, setEarlier] = useState<readonly FirstPhoto[]>([]);
  useEffect(() => {
    let left = false;
    void onDisk.all().then((kept = []) => {
      const own = kept.filter(({ personId }) => personId === person.id);
      if (!left) setEarlier(own.toSorted((one, other) => (one.takenAt < other.takenAt ? -1 : 1)));
    });
    return () => {
      left = true;
    };
  }, [person.id]);
  const add = (files: readonly File[], caption: string) => {
    const takenAt = new Date().toISOString();
    const of = { personId: person.id, caption, takenAt };
    const taken = files.map((file) => ({ ...of, key: newKey(), file, name: file.name }));
    for (const photo of taken) void onDisk.put(photo);
    setPhotos((before) => [...before, ...taken]);
  };
  const drop = (key: string) => {
    void onDisk.drop(key);
    setPhotos((before) => without(before, key));
  };
  const takeEarlier = () => {
    setPhotos((before) => [...earlier, ...before]);
    setEarlier([]);
  };
  const throwAway = (which: readonly FirstPhoto[]) => {
    for (const { key } of which) void onDisk.drop(key);
  };
  const dropEarlier = () => {
    throwAway(earlier);
    setEarlier([]);
  };
  /** The form is begun anew: what was taken for it is not kept. */
  const discard = () => {
    throwAway(photos);
    setPhotos([]);
  };
  /** Gives them into the terminal's keeping, from where they are sent, whatever becomes of the line meanwhile. */
  const giveTo = async (jobId: string) => {
    for (const { key, file, name, caption, takenAt } of photos) {
      const of = { personId: person.id, person: person.name, jobId, of: {}, caption, name, file };
      await keepPhoto({ ...of, happenedAt: takenAt });
      await onDisk.drop(key);
    }
    sendPhotosNow();
  };
  return { photos, earlier, add, drop, takeEarlier, dropEarlier, discard, giveTo };
}
