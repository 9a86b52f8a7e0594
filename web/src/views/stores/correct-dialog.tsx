import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Lot, PartName } from '#contracts/parts.ts';
import type { MoveStock, StockMoved } from '#contracts/stock.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite, type Write } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { MarkFields, marksBody, marksOf } from './mark-fields.tsx';
import { binsQuery, partQuery } from './stores-queries.ts';

type Act = 'count' | 'adjust' | 'scrap' | 'transfer' | 'mark';
const acts = ['count', 'adjust', 'scrap', 'transfer', 'mark'] as const;

interface CorrectProps {
  readonly part: PartName;
  readonly lot: Lot;
  readonly onClose: () => void;
}

interface Asked {
  readonly lotId: string;
  readonly count: number;
  readonly binId: string;
  readonly reason: string;
}

function movementOf(act: Exclude<Act, 'mark'>, { lotId, count, binId, reason }: Asked): MoveStock {
  switch (act) {
    case 'count':
      return { act, lotId, counted: count, reason };
    case 'adjust':
      return { act, lotId, quantity: count, reason };
    case 'scrap':
      return { act, lotId, quantity: count, reason };
    case 'transfer':
      return { act, lotId, quantity: count, toBinId: binId, reason };
  }
}

/** Puts the ledger right about one lot, with a reason; what was promised of it and is not there becomes short by name. */
export function CorrectDialog({ part, lot, onClose }: CorrectProps) {
  const { correct: words } = useWords().stores;
  const writing = useWrite<StockMoved>();
  return (
    <Dialog title={words.title(part.name, lot.bin)} open onClose={onClose}>
      {writing.reply === undefined ? (
        <CorrectForm part={part} lot={lot} writing={writing} onClose={onClose} />
      ) : (
        <Corrected moved={writing.reply} onClose={onClose} />
      )}
    </Dialog>
  );
}

interface FormProps extends CorrectProps {
  readonly writing: ReturnType<typeof useWrite<StockMoved>>;
}

function CorrectForm({ part, lot, writing, onClose }: FormProps) {
  const { correct: words, receiveDialog } = useWords().stores;
  const { done } = useWords().scan;
  const bins = useQuery(binsQuery).data?.items ?? [];
  const [act, setAct] = useState<Act>('count');
  const [count, setCount] = useState(lot.onHand);
  const [binId, setBinId] = useState('');
  const [reason, setReason] = useState('');
  const [marks, setMarks] = useState(() => marksOf(lot));
  const isShim = useQuery(partQuery(part.id)).data?.part.shim != null;
  const changed = Object.keys(marksBody(lot, marks, '')).length > 1;
  const label = {
    count: words.counted,
    adjust: words.change,
    scrap: words.quantity,
    transfer: words.quantity,
    mark: '',
  }[act];
  const [least, most] = act === 'count' ? [0, 100_000] : act === 'adjust' ? [-lot.onHand, 100_000] : [1, lot.onHand];
  const ready =
    !writing.busy &&
    reason.trim() !== '' &&
    (act !== 'transfer' || binId !== '') &&
    (act !== 'adjust' || count !== 0) &&
    (act !== 'mark' || changed);
  const choose = (next: Act) => {
    setAct(next);
    setCount(next === 'count' ? lot.onHand : next === 'adjust' ? -1 : 1);
    writing.clear();
  };
  // A bin is where it goes; the part itself is what the dialog is about, and any other is not.
  useScan((scanned) => {
    if (scanned.kind === 'part')
      return scanned.part.id === part.id ? { did: done.samePart } : { did: done.otherPart(part.name), amiss: true };
    if (scanned.kind !== 'bin') return undefined;
    if (scanned.code === lot.bin) return { did: done.liesThere };
    if (!bins.some(({ id }) => id === scanned.id)) return { did: done.binClosed, amiss: true };
    choose('transfer');
    setBinId(scanned.id);
    return { did: done.binToChosen };
  });
  const written = (): Write =>
    act === 'mark'
      ? { path: `/lots/${lot.id}/marks`, body: marksBody(lot, marks, reason.trim()) }
      : { path: '/stock-movements', body: movementOf(act, { lotId: lot.id, count, binId, reason: reason.trim() }) };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        writing.write(written());
      }}
    >
      <Choice
        label={words.what}
        value={act}
        onChange={choose}
        options={acts.map((value) => ({ value, label: words[value] }))}
      />
      {act === 'mark' ? (
        <MarkFields marks={marks} isShim={isShim} error={writing.error} onMarks={setMarks} />
      ) : (
        <div className="count">
          <b>{label}</b>
          <Stepper label={label} value={count} min={least} max={most} onChange={setCount} />
        </div>
      )}
      {act === 'transfer' ? (
        <Field label={words.toBin}>
          {(input) => (
            <select {...input} value={binId} onChange={({ target }) => setBinId(target.value)}>
              <option value="">{receiveDialog.chooseBin}</option>
              {bins
                .filter(({ code }) => code !== lot.bin)
                .map(({ id, code }) => (
                  <option key={id} value={id}>
                    {code}
                  </option>
                ))}
            </select>
          )}
        </Field>
      ) : null}
      <Field label={words.reason}>
        {(input) => (
          <input {...input} maxLength={300} value={reason} onChange={({ target }) => setReason(target.value)} />
        )}
      </Field>
      <Refusal error={writing.error} />
      <div className="dialog-acts">
        <Button type="submit" kind="main" disabled={!ready}>
          {words.write}
        </Button>
        <Button onClick={onClose}>{words.close}</Button>
      </div>
    </form>
  );
}

function Corrected({ moved, onClose }: { readonly moved: StockMoved; readonly onClose: () => void }) {
  const { correct: words } = useWords().stores;
  return (
    <div className="form" role="status">
      <p>
        <b>{words.done}</b>
      </p>
      {moved.shortages.length === 0 ? null : (
        <div className="answer short">
          <p>{words.takenBack}</p>
          <ul>
            {moved.shortages.map(({ demandLineId, part, missing, job }) => (
              <li key={demandLineId} className="hot">
                {words.takenBackFrom(part.name, missing, `${job.family} ${job.serial}`)}
              </li>
            ))}
          </ul>
        </div>
      )}
      {moved.carried.length === 0 ? null : (
        <div className="answer">
          <p>{words.carried}</p>
          <ul>
            {moved.carried.map(({ demandLineId, job, quantity }) => (
              <li key={demandLineId}>{words.carriedOf(quantity, `${job.family} ${job.serial}`)}</li>
            ))}
          </ul>
        </div>
      )}
      <div className="dialog-acts">
        <Button kind="main" onClick={onClose}>
          {words.close}
        </Button>
      </div>
    </div>
  );
}
