import type { EnginePage } from '#contracts/engines.ts';
import { ReasonDialog } from '../../app/reason-dialog.tsx';
import { useWords } from '../../words/words.tsx';

type Props = { readonly obligation: EnginePage['obligations'][number]; readonly onClose: () => void };

/** A lead's word that an obligation is met though no finding proves it. */
export function DischargeDialog({ obligation, onClose }: Props) {
  const words = useWords().engine;
  return (
    <ReasonDialog
      title={words.dischargeTitle}
      label={words.decideReason}
      hint={words.dischargeHint}
      rows={3}
      go={words.dischargeSend}
      cancel={words.cancel}
      path={`/obligations/${obligation.id}/discharge`}
      bodyOf={(reason) => ({ reason })}
      onClose={onClose}
    >
      <p>{obligation.words}</p>
    </ReasonDialog>
  );
}
