import { useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import type { PartInstead } from '#contracts/parts-instead.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { PartPicker } from './part-picker.tsx';

interface DialogProps {
  readonly part: PartName;
  readonly onClose: () => void;
}

/** Names a part that will do in the place of this one, and when. */
export function AlternativeDialog({ part, onClose }: DialogProps) {
  const { partsInstead: words } = useWords();
  const writing = useWrite<PartInstead>();
  const [other, setOther] = useState<PartName | null>(null);
  const [condition, setCondition] = useState('');
  const [bothWays, setBothWays] = useState(false);
  const ready = other !== null && condition.trim() !== '' && !writing.busy;
  const write = () => {
    if (other === null || !ready) return;
    const body = { partId: other.id, condition: condition.trim(), bothWays };
    writing.write({ path: `/parts/${part.id}/alternatives`, body }, onClose);
  };
  return (
    <Dialog
      title={words.alternativeTitle(part.name)}
      open
      onClose={onClose}
      acts={<DialogActs act={words.write} ready={ready} onAct={write} close={words.close} onClose={onClose} />}
    >
      <div className="form">
        <PartPicker
          chosen={other}
          onChoose={(chosen) => {
            setOther(chosen);
            writing.clear();
          }}
        />
        <Field label={words.condition} hint={words.conditionHint} error={faultAt(writing.error, '/condition')}>
          {(input) => (
            <input {...input} maxLength={300} value={condition} onChange={({ target }) => setCondition(target.value)} />
          )}
        </Field>
        <label className="check">
          <input
            type="checkbox"
            checked={bothWays}
            onChange={({ currentTarget }) => setBothWays(currentTarget.checked)}
          />
          {words.bothWays}
        </label>
        {isSaidAt(writing.error, ['/condition']) ? null : <Refusal error={writing.error} />}
      </div>
    </Dialog>
  );
}
