import type { PartName } from '#contracts/parts.ts';
import { ReasonDialog } from '../../app/reason-dialog.tsx';
import { useWords } from '../../words/words.tsx';

/** A tie between two parts that holds no longer. */
export interface Withdrawal {
  readonly kind: 'supersession' | 'alternative';
  readonly part: PartName;
  readonly other: PartName;
}

/** Takes back that one part may stand in another's place, with a reason. */
export function WithdrawDialog({ what, onClose }: { readonly what: Withdrawal; readonly onClose: () => void }) {
  const { partsInstead: words } = useWords();
  const superseded = what.kind === 'supersession';
  return (
    <ReasonDialog
      title={words.withdrawTitle(what.other.name)}
      label={words.reason}
      most={300}
      big
      go={words.withdraw}
      cancel={words.close}
      path={`/parts/${what.part.id}/${superseded ? 'supersession' : 'alternatives'}/withdraw`}
      bodyOf={(reason) => (superseded ? { reason } : { partId: what.other.id, reason })}
      onClose={onClose}
    />
  );
}
