import type { KeyboardEvent } from 'react';
import { Dialog as AriaDialog, Modal, ModalOverlay } from 'react-aria-components';
import type { Photo } from '#contracts/photos.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { PhotoActs } from './photo-acts.tsx';
import { usePhotoName } from './photo-name.ts';
import { contentOf, kilobytes, thumbnailOf } from './photos-query.ts';

interface ViewerProps {
  readonly photos: readonly Photo[];
  readonly id: string;
  readonly onShow: (id: string) => void;
  readonly onClose: () => void;
}

function Facts({ photo }: { readonly photo: Photo }) {
  const { photos: words } = useWords();
  const format = useFormat();
  const size = format.number(kilobytes(photo.bytes));
  const facts = [
    [words.shows, photo.of.kind === 'job' ? words.theEngine : `${words.of[photo.of.kind]}: ${photo.of.words}`],
    [words.takenBy, photo.by.name],
    [words.takenAt, format.dateTime(photo.takenAt)],
    ...(photo.terminal === null ? [] : [[words.atTerminal, photo.terminal.name] as const]),
    [words.job, String(photo.job.number)],
    [
      words.size,
      photo.width === null || photo.height === null
        ? words.document(size)
        : words.pixels(photo.width, photo.height, size),
    ],
  ] as const;
  return (
    <dl className="photo-facts">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function Picture({ photo }: { readonly photo: Photo }) {
  const name = usePhotoName()(photo);
  if (photo.width === null) return <span className="photo-paper large">{photo.name || 'PDF'}</span>;
  return <img src={thumbnailOf(photo, 'large')} alt={name} width={photo.width} height={photo.height ?? 0} />;
}

/** One photo as large as the screen allows, who took it of what, and on to the next; arrow keys do the same. */
export function PhotoViewer({ photos, id, onShow, onClose }: ViewerProps) {
  const { photos: words } = useWords();
  const at = photos.findIndex((photo) => photo.id === id);
  const photo = photos[at];
  const name = usePhotoName();
  if (photo === undefined) return null;
  const go = (by: 1 | -1) => {
    const to = photos[at + by];
    if (to !== undefined) onShow(to.id);
  };
  const keys = (event: KeyboardEvent) => {
    if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
    if (event.key === 'ArrowLeft') go(-1);
    if (event.key === 'ArrowRight') go(1);
  };
  return (
    <ModalOverlay
      className="dialog-back"
      isOpen
      isDismissable
      onOpenChange={(stays) => (stays ? undefined : onClose())}
    >
      <Modal className="photo-viewer">
        <AriaDialog aria-label={name(photo)}>
          {/* biome-ignore lint/a11y/noStaticElementInteractions: the buttons within do the same */}
          <div className="photo-view" onKeyDown={keys}>
            <div className="photo-large">
              <Picture photo={photo} />
            </div>
            <div className="photo-beside">
              <div className="photo-turn">
                <Button disabled={at === 0} onClick={() => go(-1)}>
                  {words.before}
                </Button>
                <span className="num">{words.nth(at + 1, photos.length)}</span>
                <Button disabled={at === photos.length - 1} onClick={() => go(1)}>
                  {words.after}
                </Button>
              </div>
              <Facts photo={photo} />
              <PhotoActs key={photo.id} photo={photo} onRemoved={onClose} />
              <div className="photo-ends">
                <a className="btn" href={contentOf(photo)} target="_blank" rel="noreferrer">
                  {photo.width === null ? words.openDocument : words.full}
                </a>
                <Button kind="main" onClick={onClose}>
                  {words.close}
                </Button>
              </div>
            </div>
          </div>
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}
