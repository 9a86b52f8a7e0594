import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { LineFault, Order } from '#contracts/supply.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { onesAsked } from './ones-asked.ts';
import { PackSteppers } from './pack-count.tsx';
import { partQuery } from './stores-queries.ts';

type Kind = LineFault['kind'];

interface FaultProps {
  readonly line: Order['lines'][number];
  readonly onClose: () => void;
}

/** What came wrong or damaged, what goes back, what will not come: a fact on the line, with what was said. */
export function FaultDialog({ line, onClose }: FaultProps) {
  const { orderLine: words } = useWords().storesDesks;
  const open = line.quantity - line.received;
  const [kind, setKind] = useState<Kind>(open > 0 ? 'came wrong' : 'sent back');
  const [quantity, setQuantity] = useState(1);
  const [lotId, setLotId] = useState('');
  const [said, setSaid] = useState('');
  const writing = useWrite();
  const isBack = kind === 'sent back';
  const ready = said.trim() !== '' && (!isBack || lotId !== '') && !writing.busy;
  const body = { kind, ...onesAsked(quantity, line.packSize), words: said, ...(isBack ? { lotId } : {}) };
  const options = [
    { value: 'came wrong', label: words.cameWrong, disabled: open <= 0 },
    { value: 'came damaged', label: words.cameDamaged, disabled: open <= 0 },
    { value: 'sent back', label: words.sentBack, disabled: line.received <= 0 },
    { value: 'called off', label: words.calledOff, disabled: open <= 0 },
  ] as const;
  return (
    <Dialog title={words.moreOf(line.part.name)} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) writing.write({ path: `/purchase-lines/${line.id}/faults`, body }, onClose);
        }}
      >
        <Choice label={words.what} value={kind} onChange={setKind} options={options} />
        <p className="note">{words.explained[kind]}</p>
        <div className="count">
          <b>{words.howMany}</b>
          <PackSteppers label={words.howMany} ones={quantity} packSize={line.packSize} min={1} onChange={setQuantity} />
        </div>
        {isBack ? (
          <LotField partId={line.part.id} lotId={lotId} error={faultAt(writing.error, '/lotId')} onLot={setLotId} />
        ) : null}
        <Field label={words.words} error={faultAt(writing.error, '/words')}>
          {(input) => (
            <input {...input} required maxLength={300} value={said} onChange={({ target }) => setSaid(target.value)} />
          )}
        </Field>
        {isSaidAt(writing.error, ['/words', '/lotId']) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={!ready}>
            {words.write}
          </Button>
          <Button onClick={onClose}>{words.close}</Button>
        </div>
      </form>
    </Dialog>
  );
}

interface LotProps {
  readonly partId: string;
  readonly lotId: string;
  readonly error: string | undefined;
  readonly onLot: (lotId: string) => void;
}

function LotField({ partId, lotId, error, onLot }: LotProps) {
  const { orderLine: words } = useWords().storesDesks;
  const lots = useQuery(partQuery(partId)).data?.part.lots ?? [];
  return (
    <Field label={words.lot} error={error}>
      {(input) => (
        <select {...input} value={lotId} onChange={({ target }) => onLot(target.value)}>
          <option value="">{words.chooseLot}</option>
          {lots.map(({ id, bin, code, available }) => (
            <option key={id} value={id} disabled={available === 0}>
              {words.lotName(bin, code, available)}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
