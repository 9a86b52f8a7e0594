import { Link } from '@tanstack/react-router';
import type { ShownBy } from '#contracts/files-check.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** A longer list is for the operator's command. */
const MOST_SHOWN = 50;

interface Damaged {
  readonly hash: string;
  /** One of the smaller pictures made of it, and not itself. */
  readonly part?: string;
  readonly fault?: string;
  readonly photos: readonly ShownBy[] | null;
}

/** Where the file lies within the folder of files. */
const pathOf = ({ hash, part }: Damaged): string =>
  `${hash.slice(0, 2)}/${hash.slice(2, 4)}/${hash}${part === undefined ? '' : `.${part}`}`;

/** The photo or document that a file is shown by, and the way to it. */
function Shown({ photo }: { readonly photo: ShownBy }) {
  const words = useWords();
  const { filesCheck } = words;
  const format = useFormat();
  const { of } = photo;
  const what =
    of === null
      ? filesCheck.uncounted
      : of.kind === 'job'
        ? filesCheck.ofEngine
        : `${words.photos.of[of.kind]}: ${of.words}`;
  return (
    <>
      <Link to="/engines/$engineId" params={{ engineId: photo.engine.id }} hash="photos" className="num">
        {photo.engine.serial}
      </Link>
      <span>
        {[filesCheck.job(photo.job.number), what, photo.caption || photo.name].filter((part) => part !== '').join(', ')}
      </span>
      <span className="note line">{filesCheck.taken(format.dateTime(photo.takenAt), photo.by.name)}</span>
    </>
  );
}

interface DamagedFilesProps {
  readonly title: string;
  readonly what: string;
  /** Nothing is lost by them. */
  readonly harmless?: boolean;
  readonly files: readonly Damaged[];
}

/** Files of one kind of fault: by what each is shown, where it lies, and what to do about all of them. */
export function DamagedFiles({ title, what, harmless = false, files }: DamagedFilesProps) {
  const words = useWords().filesCheck;
  if (files.length === 0) return null;
  return (
    <div className="damaged-files">
      <h3 className={harmless ? undefined : 'hot'}>{title}</h3>
      <p>{what}</p>
      <ul>
        {files.slice(0, MOST_SHOWN).map((file) => (
          <li key={pathOf(file)}>
            {file.photos?.map((photo) => (
              <div key={photo.photoId} className="shown-by">
                <Shown photo={photo} />
              </div>
            ))}
            {file.photos?.length === 0 ? <span>{words.removedOnly}</span> : null}
            {file.fault === undefined ? null : <b>{file.fault}</b>}
            <code className="note">{pathOf(file)}</code>
          </li>
        ))}
      </ul>
      {files.length > MOST_SHOWN ? <p className="note">{words.more(files.length - MOST_SHOWN)}</p> : null}
    </div>
  );
}
