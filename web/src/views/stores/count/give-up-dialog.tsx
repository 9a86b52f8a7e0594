import { ReasonDialog } from '../../../app/reason-dialog.tsx';
import { useWords } from '../../../words/words.tsx';

/** Ends a sheet that nobody will finish, with a reason. */
export function GiveUpDialog({ sheetId, onClose }: { readonly sheetId: string; readonly onClose: () => void }) {
  const { sheet: words } = useWords().counts;
  return (
    <ReasonDialog
      title={words.giveUp}
      label={words.giveUpWhy}
      hint={words.giveUpHint}
      most={300}
      go={words.giveUp}
      cancel={words.cancel}
      path={`/count-sheets/${sheetId}/give-up`}
      bodyOf={(reason) => ({ reason })}
      onClose={onClose}
    />
  );
}
