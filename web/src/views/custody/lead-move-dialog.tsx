import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Moved, TrayInShop } from '#contracts/custody.ts';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { useBlanks } from '../bench/counting.tsx';
import { sumOf, useDialogCounts } from '../bench/counts.ts';
import { jobTraysQuery, peopleQuery } from '../bench/hands-queries.ts';
import { Toggles } from '../bench/toggles.tsx';
import { countsOf, Differing, linesOf, TrayCounts, useToCount } from '../bench/tray-counts.tsx';

/** What somebody who is absent holds of one engine. */
export interface HeldByAbsent {
  readonly holder: { readonly id: string; readonly name: string };
  readonly engine: EngineStanding;
  readonly itself: boolean;
  readonly trays: readonly TrayInShop[];
}

interface LeadMoveProps {
  readonly held: HeldByAbsent;
  readonly floor: Floor;
  readonly onClose: () => void;
}

const ENGINE = 'engine';
const REST = 'rest';

/** A lead moves what somebody absent holds: why, to whom or to rest where, every tray counted, in one act. */
export function LeadMoveDialog({ held, floor, onClose }: LeadMoveProps) {
  const { absent: words } = useWords().custody;
  const { move } = useWords().myBench;
  const { engine, holder } = held;
  const [chosen, setChosen] = useState<readonly string[]>([
    ...(held.itself ? [ENGINE] : []),
    ...held.trays.map(({ id }) => id),
  ]);
  const [to, setTo] = useState(REST);
  const [bayId, setBay] = useState<string | null>(null);
  const [reason, setReason] = useState('');
  const people = useQuery(peopleQuery).data?.people ?? [];
  const trays = useQuery(jobTraysQuery(engine.job.id)).data;
  const trayIds = chosen.filter((id) => id !== ENGINE);
  const counted = useToCount(trays, { engineId: engine.id, itself: chosen.includes(ENGINE), trayIds });
  const lines = counted.flatMap(linesOf);
  const { counts, close } = useDialogCounts(`move ${engine.id}`, onClose);
  const blanks = useBlanks(counts, lines);
  const writing = useWrite<Moved>();
  const ready = chosen.length > 0 && bayId !== null && reason.trim() !== '' && trays !== undefined && !writing.busy;
  const go = (withDifference: boolean) => {
    if (bayId === null) return;
    const body = {
      to: to === REST ? { bayId } : { personId: to, bayId },
      reason: reason.trim(),
      engine: chosen.includes(ENGINE),
      trayIds,
      counts: countsOf(lines, counts),
      ...(withDifference ? { withDifference } : {}),
    };
    writing.write({ path: `/engines/${engine.id}/move`, body }, close);
  };
  const receivers = people.filter(
    ({ id, roles }) => id !== holder.id && (roles.includes('technician') || roles.includes('lead')),
  );
  return (
    <Dialog title={words.title(`${engine.family.name} ${engine.serial}`, holder.name)} open onClose={close}>
      <div className="hands-form">
        <p className="note">{words.why}</p>
        <Field label={words.reason} big>
          {(input) => (
            <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
        <Toggles
          label={move.what}
          chosen={chosen}
          onChange={setChosen}
          options={[
            ...(held.itself ? [{ value: ENGINE, label: move.engine }] : []),
            ...held.trays.map(({ id, label, name }) => ({ value: id, label, note: name })),
          ]}
        />
        <Choice
          label={words.to}
          value={to}
          onChange={setTo}
          options={[
            { value: REST, label: words.rest },
            ...receivers.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
        <Choice
          label={words.bay}
          value={bayId}
          onChange={setBay}
          options={floor.bays.map(({ id, name, capacity, engineIds }) => ({
            value: id,
            label: name,
            note: move.full(engineIds.length, capacity),
          }))}
        />
        <TrayCounts trays={counted} counts={counts} disabled={writing.busy} />
        {blanks.note}
        <Differing error={writing.error} disabled={!ready} goOn={() => go(true)} />
        <div className="dialog-acts">
          <Button big kind="main" disabled={!ready} onClick={() => blanks.commit(() => go(false))}>
            {words.go(sumOf(counts, lines))}
          </Button>
          <Button big onClick={close}>
            {move.close}
          </Button>
        </div>
      </div>
    </Dialog>
  );
}
