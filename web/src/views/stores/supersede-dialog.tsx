import { useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import type { OldStock, PartInstead } from '#contracts/parts-instead.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Choice } from '../../kit/choice.tsx';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { PartPicker } from './part-picker.tsx';

interface DialogProps {
  readonly part: PartName;
  readonly onClose: () => void;
}

/** Says which part replaces this one, and what becomes of its stock. */
export function SupersedeDialog({ part, onClose }: DialogProps) {
  const { partsInstead: words } = useWords();
  const writing = useWrite<PartInstead>();
  const [by, setBy] = useState<PartName | null>(null);
  const [oldStock, setOldStock] = useState<OldStock>('use up');
  const write = () => {
    if (by === null) return;
    writing.write({ path: `/parts/${part.id}/supersession`, body: { byPartId: by.id, oldStock } }, onClose);
  };
  return (
    <Dialog
      title={words.supersedeTitle(part.name)}
      open
      onClose={onClose}
      acts={
        <DialogActs
          act={words.write}
          ready={by !== null && !writing.busy}
          onAct={write}
          close={words.close}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <PartPicker
          chosen={by}
          onChoose={(chosen) => {
            setBy(chosen);
            writing.clear();
          }}
        />
        <Choice
          label={words.stock}
          value={oldStock}
          onChange={setOldStock}
          options={(['use up', 'new only'] as const).map((way) => ({
            value: way,
            label: words.stockWays[way],
            note: words.stockNotes[way],
          }))}
        />
        <Refusal error={writing.error} />
      </div>
    </Dialog>
  );
}
