import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import type { GoodsReceived, PurchaseLine } from '#contracts/stock.ts';
import type { Bins } from '#contracts/stores.ts';
import { inPacks } from '#domain/stock/packs.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useSession } from '../../app/session.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field, type FieldInput } from '../../kit/field.tsx';
import { useScan } from '../../scan/registry.ts';
import { readMoney } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';
import { BinOptions } from './bin-options.tsx';
import { GoodsTaken } from './goods-taken.tsx';
import { PackSteppers } from './pack-count.tsx';
import { binsQuery, partQuery } from './stores-queries.ts';

interface ReceiveProps {
  readonly part: PartName;
  readonly purchase: PurchaseLine | null;
  readonly onClose: () => void;
}

/** Takes goods in: how many, into which bin, of which lot, at what cost; then tells who gets them. */
export function ReceiveDialog({ part, purchase, onClose }: ReceiveProps) {
  const { receiveDialog: words } = useWords().stores;
  const writing = useWrite<GoodsReceived>();
  return (
    <Dialog title={`${words.title}: ${part.name}`} open onClose={onClose}>
      {writing.reply === undefined ? (
        <ReceiveForm part={part} purchase={purchase} writing={writing} onClose={onClose} />
      ) : (
        <GoodsTaken part={part} received={writing.reply} onClose={onClose} />
      )}
    </Dialog>
  );
}

type FormProps = ReceiveProps & { readonly writing: ReturnType<typeof useWrite<GoodsReceived>> };

interface Entry {
  readonly quantity: number;
  /** Empty: where the part lay last. */
  readonly binId: string;
  readonly lot: string;
  readonly cost: string;
  readonly thickness: string;
  readonly grade: string;
  readonly serial: string;
  /** Out of an engine, and good to go in again. */
  readonly used: boolean;
  readonly measured: string;
}

const pointers = ['/binId', '/lotCode', '/cost', '/thickness', '/grade', '/serial', '/usedCondition'] as const;

function ReceiveForm({ part, purchase, writing, onClose }: FormProps) {
  const { receiveDialog: words } = useWords().stores;
  const { done } = useWords().scan;
  const { currency } = useSession().shop;
  const bins = useQuery(binsQuery).data?.items ?? [];
  const sheet = useQuery(partQuery(part.id)).data;
  const [entry, setEntry] = useState<Entry>({
    quantity: purchase === null ? 1 : purchase.quantity - purchase.received,
    binId: '',
    lot: '',
    cost: '',
    thickness: '',
    grade: '',
    serial: '',
    used: false,
    measured: '',
  });
  useScan((scanned) => {
    if (scanned.kind !== 'bin' || scanned.closed) return undefined;
    const before = entry.binId;
    setEntry({ ...entry, binId: scanned.id });
    return { did: done.binChosen, undo: () => setEntry((now) => ({ ...now, binId: before })) };
  });
  const usual = sheet?.part.lots.at(-1)?.bin;
  const binId = entry.binId === '' ? (bins.find(({ code }) => code === usual)?.id ?? '') : entry.binId;
  const cost = entry.cost.trim() === '' ? undefined : readMoney(entry.cost, currency);
  const costWrong = entry.cost.trim() !== '' && cost === undefined;
  const unmeasured = entry.used && entry.measured.trim() === '';
  const ready = binId !== '' && !costWrong && !unmeasured && !writing.busy;
  const packSize = purchase?.packSize ?? 1;
  const { packs, loose } = inPacks(entry.quantity, packSize);
  const [lotCode, thickness] = [entry.lot.trim(), entry.thickness.trim().replace(',', '.')];
  const body = {
    partId: part.id,
    binId,
    ...(packSize === 1 ? { quantity: entry.quantity } : { packs, quantity: loose }),
    ...(lotCode === '' ? {} : { lotCode }),
    ...(cost === undefined ? {} : { cost }),
    ...(thickness === '' ? {} : { thickness: { value: thickness, unit: 'mm' } }),
    ...(entry.grade.trim() === '' ? {} : { grade: entry.grade.trim() }),
    ...(entry.serial.trim() === '' ? {} : { serial: entry.serial.trim() }),
    ...(entry.used ? { usedCondition: entry.measured.trim() } : {}),
    ...(purchase === null ? {} : { purchaseLineId: purchase.id }),
  };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) writing.write({ path: '/receipts', body });
      }}
    >
      <ReceiveFields
        entry={{ ...entry, binId }}
        change={(changed) => setEntry({ ...entry, ...changed })}
        packSize={packSize}
        bins={bins}
        isShim={sheet !== undefined && sheet.part.shim !== null}
        bySerial={sheet?.part.bySerial === true}
        costWrong={costWrong}
        error={writing.error}
      />
      {isSaidAt(writing.error, pointers) ? null : <Refusal error={writing.error} />}
      <div className="dialog-acts">
        <Button type="submit" kind="main" disabled={!ready}>
          {words.take}
        </Button>
        <Button onClick={onClose}>{words.leave}</Button>
      </div>
    </form>
  );
}

interface FieldsProps {
  readonly entry: Entry;
  readonly change: (changed: Partial<Entry>) => void;
  readonly packSize: number;
  readonly bins: Bins['items'];
  readonly isShim: boolean;
  readonly bySerial: boolean;
  readonly costWrong: boolean;
  readonly error: Error | null;
}

function ReceiveFields({ entry, change, packSize, bins, isShim, bySerial, costWrong, error }: FieldsProps) {
  const { receiveDialog: words } = useWords().stores;
  const { currency } = useSession().shop;
  const text =
    (field: 'lot' | 'cost' | 'thickness' | 'grade' | 'serial' | 'measured', more: { readonly maxLength: number }) =>
    (input: FieldInput) => (
      <input
        {...input}
        {...more}
        inputMode={field === 'cost' || field === 'thickness' ? 'decimal' : 'text'}
        value={entry[field]}
        onChange={({ target }) => change({ [field]: target.value })}
      />
    );
  return (
    <>
      <div className="count">
        <b>{words.quantity}</b>
        <PackSteppers
          label={words.quantity}
          ones={entry.quantity}
          packSize={packSize}
          min={1}
          onChange={(quantity) => change({ quantity })}
        />
      </div>
      <div className="pair">
        <Field label={words.bin} error={faultAt(error, '/binId')}>
          {(input) => (
            <select {...input} required value={entry.binId} onChange={({ target }) => change({ binId: target.value })}>
              <option value="">{words.chooseBin}</option>
              <BinOptions of={bins} />
            </select>
          )}
        </Field>
        <Field label={words.lot} hint={words.lotHint} error={faultAt(error, '/lotCode')}>
          {text('lot', { maxLength: 40 })}
        </Field>
        <Field label={words.cost(currency)} error={costWrong ? words.costWrong : faultAt(error, '/cost')}>
          {text('cost', { maxLength: 15 })}
        </Field>
        {isShim ? (
          <Field label={words.thickness} hint={words.thicknessHint} error={faultAt(error, '/thickness')}>
            {text('thickness', { maxLength: 12 })}
          </Field>
        ) : null}
        <Field label={words.grade} hint={words.gradeHint} error={faultAt(error, '/grade')}>
          {text('grade', { maxLength: 20 })}
        </Field>
        {bySerial ? (
          <Field label={words.serial} hint={words.serialHint} error={faultAt(error, '/serial')}>
            {text('serial', { maxLength: 60 })}
          </Field>
        ) : null}
      </div>
      <label className="check">
        <input
          type="checkbox"
          checked={entry.used}
          onChange={({ currentTarget }) => change({ used: currentTarget.checked })}
        />
        {words.used}
      </label>
      {entry.used ? (
        <Field label={words.measured} hint={words.measuredHint} error={faultAt(error, '/usedCondition')}>
          {text('measured', { maxLength: 300 })}
        </Field>
      ) : null}
    </>
  );
}
