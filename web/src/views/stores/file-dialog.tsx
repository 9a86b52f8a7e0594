import type { FileTaken } from '#contracts/stores-files.ts';
import { CsvFaults, CsvFileField, useCheckedFile } from '../../app/checked-file.tsx';
import { CheckedActs } from '../../app/checked-write.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** Counts are of one sheet; the others of all there is. */
export type Brought = 'bins' | 'kits' | 'parts' | 'counts' | 'days' | 'vendors';

interface DialogProps {
  readonly what: Brought;
  /** Below what it is brought in; left out: all of its kind. */
  readonly at?: string | undefined;
  readonly onClose: () => void;
}

/** Brings a file of bins, kits, parts or counts in. */
export function FileDialog({ what, at = '', onClose }: DialogProps) {
  const { storeFiles: words } = useWords();
  const { number } = useFormat();
  const file = useCheckedFile<FileTaken>((step) => `${at}/${what}/import${step === 'check' ? '/check' : ''}`);
  const { checked, taken, sending } = file;
  return (
    <Dialog
      title={words.bringOf[what]}
      open
      onClose={onClose}
      acts={
        <CheckedActs
          writing={file}
          ready={file.text !== ''}
          words={{ ...words, take: () => words.keep }}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>
          {words.how[what]} {words.whole}
        </p>
        <CsvFileField label={words.file} hint={words.fileHint(number(file.rows))} file={file} />
        {sending === undefined ? null : <p role="status">{sending === 'check' ? words.checking : words.keeping}</p>}
        {checked === undefined || taken !== undefined ? null : (
          <p role="status">
            {words.would(
              number(checked.rows),
              number(checked.added),
              number(checked.changed),
              number(checked.unchanged),
            )}
          </p>
        )}
        {taken === undefined ? null : (
          <p role="status">
            <b>{words.kept(number(taken.added), number(taken.changed))}</b>
          </p>
        )}
        <CsvFaults error={file.error} words={words} />
      </div>
    </Dialog>
  );
}
