import { useState } from 'react';
import type { CountSheet } from '#contracts/counts.ts';
import type { PartName } from '#contracts/parts.ts';
import { Refusal } from '../../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../../app/write.ts';
import { Button } from '../../../kit/button.tsx';
import { Dialog } from '../../../kit/dialog.tsx';
import { Field } from '../../../kit/field.tsx';
import { Stepper } from '../../../kit/stepper.tsx';
import { useScan } from '../../../scan/registry.ts';
import { useWords } from '../../../words/words.tsx';
import { PartPicker } from '../part-picker.tsx';

interface FoundProps {
  readonly sheet: CountSheet;
  readonly binId: string;
  readonly part: PartName | null;
  readonly onClose: () => void;
}

const pointers = ['/lotCode', '/serial', '/counted', '/binId'] as const;

/** Pieces that lie in a bin and are on no line of its sheet: which, of which lot, how many. */
export function FoundDialog({ sheet, binId, part, onClose }: FoundProps) {
  const { foundDialog: words } = useWords().counts;
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <FoundForm sheet={sheet} binId={binId} part={part} onClose={onClose} />
    </Dialog>
  );
}

function FoundForm({ sheet, binId: firstBin, part: firstPart, onClose }: FoundProps) {
  const { foundDialog: words, sheet: sheetWords } = useWords().counts;
  const [part, setPart] = useState(firstPart);
  const [binId, setBinId] = useState(firstBin);
  const [of, setOf] = useState({ lotCode: '', serial: '', counted: 1 });
  const writing = useWrite<CountSheet>();
  useScan((scanned) => {
    if (scanned.kind === 'part') {
      setPart(scanned.part);
      return { did: words.scanned };
    }
    if (scanned.kind !== 'bin' || !sheet.bins.some(({ id }) => id === scanned.id)) return undefined;
    setBinId(scanned.id);
    return { did: words.scanned };
  });
  const text = (field: 'lotCode' | 'serial') => (of[field].trim() === '' ? {} : { [field]: of[field].trim() });
  const add = () => {
    if (part === null) return;
    const body = { binId, partId: part.id, counted: of.counted, ...text('lotCode'), ...text('serial') };
    writing.write({ path: `/count-sheets/${sheet.id}/found`, body }, onClose);
  };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <Field label={words.bin} error={faultAt(writing.error, '/binId')}>
        {(input) => (
          <select {...input} value={binId} onChange={({ target }) => setBinId(target.value)}>
            {sheet.bins
              .filter(({ endedAt }) => endedAt === null)
              .map(({ id, code }) => (
                <option key={id} value={id}>
                  {sheetWords.bin(code)}
                </option>
              ))}
          </select>
        )}
      </Field>
      <PartPicker chosen={part} onChoose={setPart} blind />
      <Field label={words.lot} error={faultAt(writing.error, '/lotCode')}>
        {(input) => (
          <input
            {...input}
            maxLength={40}
            value={of.lotCode}
            onChange={({ target }) => setOf({ ...of, lotCode: target.value })}
          />
        )}
      </Field>
      <Field label={words.serial} error={faultAt(writing.error, '/serial')}>
        {(input) => (
          <input
            {...input}
            maxLength={60}
            value={of.serial}
            onChange={({ target }) => setOf({ ...of, serial: target.value })}
          />
        )}
      </Field>
      <div className="count">
        <b>{words.count}</b>
        <Stepper
          label={words.count}
          value={of.counted}
          min={1}
          max={100_000}
          onChange={(counted) => setOf({ ...of, counted })}
        />
      </div>
      {isSaidAt(writing.error, pointers) ? null : <Refusal error={writing.error} />}
      <div className="dialog-acts">
        <Button type="submit" kind="main" disabled={part === null || writing.busy}>
          {words.add}
        </Button>
        <Button onClick={onClose}>{sheetWords.cancel}</Button>
      </div>
    </form>
  );
}
