import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Moved, TrayInShop } from '#contracts/custody.ts';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { useBlanks } from './counting.tsx';
import { sumOf, useDialogCounts } from './counts.ts';
import { jobTraysQuery, shopQuery } from './hands-queries.ts';
import { Toggles } from './toggles.tsx';
import { countsOf, Differing, linesOf, TrayCounts, useToCount } from './tray-counts.tsx';

export interface Moving {
  readonly kind: 'take' | 'leave';
  readonly engine: EngineStanding;
  /** Whether the engine itself can go, or only trays of it. */
  readonly itself: boolean;
  readonly trays: readonly TrayInShop[];
  /** Where it rests, when it is taken. */
  readonly bayId?: string;
}

interface MoveDialogProps {
  readonly move: Moving;
  readonly floor: Floor;
  readonly onClose: () => void;
}

const ENGINE = 'engine';

/** Where the terminal stands, if that is a bay of the floor. */
function useTerminalBay(): string | null {
  const { terminal } = useSession();
  const terminals = useQuery(shopQuery).data?.terminals;
  return terminals?.find(({ id }) => id === terminal?.id)?.bay?.id ?? null;
}

/** Takes what rests in a bay, or leaves what I hold in one: every tray counted, in one act. */
export function MoveDialog({ move, floor, onClose }: MoveDialogProps) {
  const { move: words } = useWords().myBench;
  const { kind, engine } = move;
  const [chosen, setChosen] = useState<readonly string[]>([
    ...(move.itself ? [ENGINE] : []),
    ...move.trays.map(({ id }) => id),
  ]);
  const terminalBay = useTerminalBay();
  const [bay, setBay] = useState<string | null>(null);
  const bayId = bay ?? (kind === 'take' ? (terminalBay ?? move.bayId ?? null) : terminalBay);
  const trays = useQuery(jobTraysQuery(engine.job.id)).data;
  const trayIds = chosen.filter((id) => id !== ENGINE);
  const counted = useToCount(trays, { engineId: engine.id, itself: chosen.includes(ENGINE), trayIds });
  const lines = counted.flatMap(linesOf);
  const { counts, close } = useDialogCounts(`${kind} ${engine.id}`, onClose);
  const blanks = useBlanks(counts, lines);
  const writing = useWrite<Moved>();
  const go = (withDifference: boolean) => {
    const target = kind === 'take' ? { bayId: move.bayId, toBayId: bayId } : { bayId };
    writing.write(
      {
        path: `/engines/${engine.id}/${kind}`,
        body: {
          ...target,
          engine: chosen.includes(ENGINE),
          trayIds,
          counts: countsOf(lines, counts),
          ...(withDifference ? { withDifference } : {}),
        },
      },
      close,
    );
  };
  const ready = chosen.length > 0 && bayId !== null && trays !== undefined && !writing.busy;
  const name = `${engine.family.name} ${engine.serial}`;
  return (
    <Dialog title={kind === 'take' ? words.take(name) : words.leave(name)} open onClose={close}>
      <div className="hands-form">
        {move.itself && move.trays.length === 0 ? null : (
          <Toggles
            label={words.what}
            chosen={chosen}
            onChange={setChosen}
            options={[
              ...(move.itself ? [{ value: ENGINE, label: words.engine }] : []),
              ...move.trays.map(({ id, label, name: tray }) => ({ value: id, label, note: tray })),
            ]}
          />
        )}
        <Choice
          label={kind === 'take' ? words.toBay : words.leaveIn}
          value={bayId}
          onChange={setBay}
          options={floor.bays.map(({ id, name: label, capacity, engineIds }) => ({
            value: id,
            label,
            note: words.full(engineIds.length, capacity),
          }))}
        />
        {trays === undefined ? <Skeleton label={words.reading} lines={2} /> : null}
        <TrayCounts trays={counted} counts={counts} disabled={writing.busy} />
        {blanks.note}
        <Differing error={writing.error} disabled={!ready} goOn={() => go(true)} />
        {chosen.length === 0 ? <p className="note">{words.chooseSomething}</p> : null}
        {bayId === null ? <p className="note">{words.chooseBay}</p> : null}
        <div className="dialog-acts">
          <Button big kind="main" disabled={!ready} onClick={() => blanks.commit(() => go(false))}>
            {kind === 'take' ? words.doTake(sumOf(counts, lines)) : words.doLeave(sumOf(counts, lines))}
          </Button>
          <Button big onClick={close}>
            {words.close}
          </Button>
        </div>
      </div>
    </Dialog>
  );
}
