import { useState } from 'react';
import type { Accepted, CountDifference, Handover } from '#contracts/custody.ts';
import { ReasonDialog } from '../../app/reason-dialog.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { TrayToCount } from './tray-to-count.tsx';

/** "1 × dowel", and how many differences more. */
function useDifferenceWords() {
  const words = useWords().handover;
  return (differences: readonly CountDifference[]): string => {
    const [first] = differences;
    if (first === undefined) return '';
    const said = words.differenceOf(Math.abs(first.given - first.counted), first.piece);
    return differences.length === 1 ? said : words.andMore(said, differences.length - 1);
  };
}

/** The receiver's side: count every tray, then accept, accept with a difference, or decline. */
export function Answering({ handover, open }: { readonly handover: Handover; readonly open: boolean }) {
  const words = useWords().handover;
  const { cancel } = useWords().procedure.mark;
  const { done: scan } = useWords().scan;
  const inWords = useDifferenceWords();
  const [declining, setDeclining] = useState(false);
  const [at, setAt] = useState<string | null>(null);
  const writing = useWrite<Accepted>();
  const { trays, giver } = handover;
  const left = trays.filter(({ counted }) => !counted);
  const differences = trays.flatMap((tray) => tray.differences);
  const active = left.find(({ trayId }) => trayId === at) ?? left[0];
  useScan((scanned) => {
    if (scanned.kind === 'rack') return { did: scan.rackInTray, amiss: true };
    if (scanned.kind !== 'tray') return undefined;
    const tray = trays.find(({ trayId }) => trayId === scanned.id);
    if (tray === undefined) return { did: scan.notInHandover, amiss: true };
    if (tray.counted) return { did: scan.countedTray };
    const before = at;
    setAt(scanned.id);
    return { did: scan.countTray, undo: () => setAt(before) };
  });
  return (
    <>
      <h2>{trays.length === 0 ? words.noTrays : words.countEach}</h2>
      <ol className="trays-to-count">
        {trays.map((tray) => (
          <TrayToCount
            key={tray.trayId}
            handoverId={handover.id}
            tray={tray}
            active={tray.trayId === active?.trayId}
            open={open}
            onChoose={() => setAt(tray.trayId)}
          />
        ))}
      </ol>
      <div className="answer">
        <Refusal error={writing.error} />
        <div className="hands-acts">
          <Button
            big
            kind="main"
            disabled={left.length > 0 || writing.busy}
            onClick={() => writing.write({ path: `/handovers/${handover.id}/accept` })}
          >
            {differences.length === 0 ? words.accept : words.acceptWith(inWords(differences))}
          </Button>
          <Button big onClick={() => setDeclining(true)}>
            {words.decline}
          </Button>
        </div>
        <p className="note answer-note">
          {left.length === 0
            ? words.untilThen(giver.name)
            : words.opens(left.map(({ label }) => words.trayLabel(label)).join(', '), giver.name)}
          {trays.every(({ obligations }) => obligations.length === 0) ? '' : ` ${words.obliges}`}
        </p>
      </div>
      {declining ? (
        <ReasonDialog
          big
          cancel={cancel}
          title={words.declineTitle}
          label={words.declineReason}
          go={words.declineGo(giver.name)}
          path={`/handovers/${handover.id}/decline`}
          bodyOf={(reason) => ({ reason })}
          onClose={() => setDeclining(false)}
        />
      ) : null}
    </>
  );
}
