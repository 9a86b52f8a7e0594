import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Moved, SendOut } from '#contracts/custody.ts';
import type { Floor } from '#contracts/floor.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { useBlanks } from './counting.tsx';
import { sumOf, useDialogCounts } from './counts.ts';
import { jobTraysQuery, shopQuery } from './hands-queries.ts';
import type { Held } from './my-bench.ts';
import { countsOf, Differing, linesOf, TrayCounts, useToCount } from './tray-counts.tsx';

const ENGINE = 'engine';

interface SendOutDialogProps {
  readonly held: Held;
  readonly floor: Floor;
  readonly onClose: () => void;
}

/** Sends a tray I hold, or the engine, to a vendor: what for, due when, counted as it leaves. */
export function SendOutDialog({ held, floor, onClose }: SendOutDialogProps) {
  const words = useWords().myBench;
  const { send } = words;
  const { engine, mine } = held;
  const free = held.trays.filter(({ offeredIn }) => offeredIn === null);
  const [what, setWhat] = useState<string | null>(null);
  const [vendorId, setVendor] = useState<string | null>(null);
  const [work, setWork] = useState('');
  const [dueOn, setDueOn] = useState('');
  const vendors = useQuery(shopQuery).data?.vendors;
  const trays = useQuery(jobTraysQuery(engine.job.id)).data;
  const counted = useToCount(trays, {
    engineId: engine.id,
    itself: what === ENGINE,
    trayIds: what === null ? [] : [what],
  });
  const lines = counted.flatMap(linesOf);
  const { counts, close } = useDialogCounts(`send out ${engine.id}`, onClose);
  const blanks = useBlanks(counts, lines);
  const writing = useWrite<Moved>();
  const ready =
    what !== null &&
    vendorId !== null &&
    work.trim() !== '' &&
    dueOn >= floor.today &&
    trays !== undefined &&
    !writing.busy;
  const go = (withDifference: boolean) => {
    if (what === null || vendorId === null) return;
    const body: SendOut = {
      subject: what === ENGINE ? { engine: true } : { trayId: what },
      vendorId,
      work: work.trim(),
      dueOn,
      counts: countsOf(lines, counts),
      ...(withDifference ? { withDifference } : {}),
    };
    writing.write({ path: `/jobs/${engine.job.id}/outside-work`, body }, close);
  };
  return (
    <Dialog title={send.title(`${engine.family.name} ${engine.serial}`)} open onClose={close}>
      <form
        className="hands-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) blanks.commit(() => go(false));
        }}
      >
        <Choice
          label={words.move.what}
          value={what}
          onChange={setWhat}
          options={[
            ...free.map(({ id, label, name }) => ({ value: id, label, note: name })),
            ...(mine ? [{ value: ENGINE, label: words.move.engine }] : []),
          ]}
        />
        {vendors === undefined ? (
          <Skeleton label={send.reading} lines={2} />
        ) : (
          <Choice
            label={send.vendor}
            value={vendorId}
            onChange={setVendor}
            options={vendors.map(({ id, name, trade }) => ({ value: id, label: name, note: trade }))}
          />
        )}
        <Field label={send.work} hint={send.workHint} big>
          {(input) => (
            <input {...input} maxLength={500} value={work} onChange={({ target }) => setWork(target.value)} />
          )}
        </Field>
        <Field label={send.due} hint={send.dueHint} big>
          {(input) => (
            <input
              {...input}
              type="date"
              required
              min={floor.today}
              value={dueOn}
              onChange={({ target }) => setDueOn(target.value)}
            />
          )}
        </Field>
        <TrayCounts trays={counted} counts={counts} disabled={writing.busy} />
        {blanks.note}
        <Differing error={writing.error} disabled={!ready} goOn={() => go(true)} />
        <div className="dialog-acts">
          <Button type="submit" big kind="main" disabled={!ready}>
            {send.go(sumOf(counts, lines))}
          </Button>
          <Button big onClick={close}>
            {words.move.close}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
