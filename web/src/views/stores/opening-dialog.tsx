import type { OpeningKept } from '#contracts/stock-books.ts';
import { CsvFaults, CsvFileField, useCheckedFile } from '../../app/checked-file.tsx';
import { CheckedActs } from '../../app/checked-write.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** Opens the books with a file. */
export function OpeningDialog({ onClose }: { readonly onClose: () => void }) {
  const { opening: words } = useWords().partForms;
  const { number } = useFormat();
  const file = useCheckedFile<OpeningKept>((step) => `/stock-opening${step === 'check' ? '/check' : ''}`);
  const { checked, taken } = file;
  return (
    <Dialog
      title={words.title}
      open
      onClose={onClose}
      acts={
        <CheckedActs
          writing={file}
          ready={file.text !== ''}
          words={{ ...words, take: () => words.take }}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>{words.how}</p>
        <CsvFileField label={words.file} hint={words.fileHint(number(file.rows))} file={file} />
        <p role="status">
          {checked === undefined || taken !== undefined
            ? null
            : words.would(number(checked.lots), number(checked.parts), number(checked.pieces))}
          {taken === undefined ? null : <b>{words.kept(number(taken.lots), number(taken.pieces))}</b>}
        </p>
        <CsvFaults error={file.error} words={words} />
      </div>
    </Dialog>
  );
}
