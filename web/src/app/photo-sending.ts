import type { Photo } from '#contracts/photos.ts';
import type { Problem } from '#contracts/problems.ts';
import { dropPhoto, type KeptPhoto, photosKept, readKept, refusePhoto, setSent } from './photo-outbox.ts';
import { invalidateFor } from './query-client.ts';

const AGAIN_MS = 4_000;
/** A line that moves nothing for so long is down. */
const STALLED_MS = 30_000;

interface Answer {
  /** 0: the network did not answer. */
  readonly status: number;
  readonly body: unknown;
}

/** XMLHttpRequest, since fetch does not tell how much of a body has left. */
function post(photo: KeptPhoto): Promise<Answer> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    const caption = photo.caption === '' ? {} : { caption: photo.caption };
    const query = new URLSearchParams({ ...photo.of, ...caption, name: photo.name.slice(-200) });
    let stalled = setTimeout(() => request.abort(), STALLED_MS);
    request.open('POST', `/api/jobs/${photo.jobId}/photos?${query}`);
    request.setRequestHeader('content-type', photo.file.type || 'application/octet-stream');
    request.setRequestHeader('idempotency-key', photo.key);
    request.setRequestHeader('happened-at', photo.happenedAt);
    request.upload.onprogress = ({ loaded, total }) => {
      clearTimeout(stalled);
      stalled = setTimeout(() => request.abort(), STALLED_MS);
      setSent(photo.key, total === 0 ? 0 : loaded / total);
    };
    request.onloadend = () => {
      clearTimeout(stalled);
      let body: unknown;
      try {
        body = JSON.parse(request.responseText);
      } catch {
        body = undefined;
      }
      resolve({ status: request.status, body });
    };
    request.send(photo.file);
  });
}

/** True when it is settled: kept by the server, or refused. False: it waits. */
async function sendOne(photo: KeptPhoto, onSignedOut: () => void): Promise<boolean> {
  setSent(photo.key, 0);
  const { status, body } = await post(photo);
  setSent(photo.key, null);
  if (status === 201 || status === 200) {
    const { engineId } = body as Photo;
    await dropPhoto(photo.key);
    invalidateFor([{ id: '', kind: 'photo', engineId, jobId: photo.jobId }]);
    return true;
  }
  if (status === 401) onSignedOut();
  const waits = [0, 401, 409, 429].includes(status) || status >= 500;
  const problem = body as Problem | undefined;
  if (waits && !(status === 409 && problem?.type.endsWith(':conflict'))) return false;
  await refusePhoto(photo.key, problem ?? { type: '', title: '', status, detail: '' });
  return true;
}

let wake: (() => void) | undefined;
/** Sends what waits now, rather than with the next turn. */
export const sendPhotosNow = (): void => wake?.();

/** Sends a person's photos one after the other while they are signed in, and tries again until the network is back. */
export function startSendingPhotos({
  personId,
  onSignedOut,
}: {
  readonly personId: string;
  readonly onSignedOut: () => void;
}): () => void {
  let stopped = false;
  let busy = false;
  const next = () => photosKept().find((photo) => photo.personId === personId && photo.refusal === null);
  const sendAll = async () => {
    for (let photo = next(); photo !== undefined && !stopped; photo = next()) {
      if (!(await sendOne(photo, onSignedOut))) return;
    }
  };
  const turn = async () => {
    if (busy || next() === undefined) return;
    busy = true;
    // Two tabs of one browser take turns; without a lock manager the keys still keep it single.
    await ('locks' in navigator ? navigator.locks.request('crosshatch-photos', sendAll) : sendAll());
    busy = false;
  };
  const run = () => void turn();
  const timer = setInterval(run, AGAIN_MS);
  addEventListener('online', run);
  wake = run;
  void readKept().then(run);
  return () => {
    stopped = true;
    clearInterval(timer);
    removeEventListener('online', run);
    wake = undefined;
  };
}
