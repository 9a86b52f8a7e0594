import type { BuildSheet } from '#contracts/hand-back.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { thumbnailOf } from '../photos/photos-query.ts';

/** So many fit one page, three beside each other. */
const MOST = 9;

/** Steps that ask for a photo and have none: those of one reason and one person in one line. */
function NotTaken({ sheet }: { readonly sheet: BuildSheet }) {
  const { sheet: words } = useWords();
  const told = new Map<string, BuildSheet['unphotographed']>();
  for (const step of sheet.unphotographed) {
    const key = `${step.by}: ${step.reason}`;
    told.set(key, [...(told.get(key) ?? []), step]);
  }
  return [...told].map(([key, steps]) => (
    <p key={key} className="sheet-no-photo">
      <b>{words.noPhoto(steps.map(({ step }) => step))}</b> {steps[0]?.reason}{' '}
      <span className="unit">{steps[0]?.by}</span>
    </p>
  ));
}

/** The chosen photos with their captions, a page at most; how many more there are is said. */
export function PhotosPrinted({ sheet }: { readonly sheet: BuildSheet }) {
  const { photos: words, sheet: sheetWords } = useWords();
  const format = useFormat();
  const { photos } = sheet;
  if (photos.length === 0 && sheet.unphotographed.length === 0) return null;
  return (
    <section className="sheet-photos">
      <h2>{words.sheetTitle}</h2>
      <ul>
        {photos.slice(0, MOST).map((photo) => (
          <li key={photo.id}>
            <img src={thumbnailOf(photo, 'large')} alt="" />
            <p>
              <b>{photo.caption || photo.of}</b>
              {photo.caption === '' || photo.of === '' ? '' : ` ${photo.of}.`}{' '}
              <span className="unit">
                {photo.by}, {format.date(photo.takenAt)}
              </span>
            </p>
          </li>
        ))}
      </ul>
      <NotTaken sheet={sheet} />
      {photos.length > MOST ? <p>{sheetWords.morePhotos(photos.length - MOST)}</p> : null}
    </section>
  );
}
