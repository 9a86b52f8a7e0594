import { useState } from 'react';
import type { Tray } from '#contracts/custody.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';

/** The choice of no tray at all. */
export const WITH_ENGINE = 'with the engine';

interface NewTrayDialogProps {
  readonly jobId: string;
  readonly onMade: (id: string) => void;
  readonly onClose: () => void;
}

function NewTrayDialog({ jobId, onMade, onClose }: NewTrayDialogProps) {
  const { tray: words } = useWords().procedure;
  const [name, setName] = useState('');
  const [label, setLabel] = useState('');
  const [kind, setKind] = useState<'pieces' | 'alone'>('pieces');
  const writing = useWrite<{ id: string }>();
  const ready = name.trim() !== '' && !writing.busy;
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <form
        className="hands-form"
        onSubmit={(event) => {
          event.preventDefault();
          const body = {
            name: name.trim(),
            ...(label.trim() === '' ? {} : { label: label.trim() }),
            ...(kind === 'alone' ? { alone: true } : {}),
          };
          if (ready) writing.write({ path: `/jobs/${jobId}/trays`, body }, ({ id }) => onMade(id));
        }}
      >
        <Field label={words.name} big error={faultAt(writing.error, '/name')}>
          {(input) => (
            <input {...input} maxLength={120} value={name} onChange={({ target }) => setName(target.value)} />
          )}
        </Field>
        <Choice
          label={words.kind}
          value={kind}
          onChange={setKind}
          options={[
            { value: 'pieces', label: words.pieces },
            { value: 'alone', label: words.alone },
          ]}
        />
        <Field label={words.label} hint={words.labelHint} big error={faultAt(writing.error, '/label')}>
          {(input) => (
            <input {...input} maxLength={24} value={label} onChange={({ target }) => setLabel(target.value)} />
          )}
        </Field>
        {isSaidAt(writing.error, ['/name', '/label']) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" big kind="main" disabled={!ready}>
            {words.make}
          </Button>
          <Button big onClick={onClose}>
            {words.cancel}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

interface TrayChoiceProps {
  readonly jobId: string;
  readonly trays: readonly Tray[];
  readonly chosen: string | null;
  readonly onChoose: (trayId: string) => void;
}

/** Into which tray: one that is here and in no offer, a new one, or none. */
export function TrayChoice({ jobId, trays, chosen, onChoose }: TrayChoiceProps) {
  const { count: words } = useWords().procedure;
  const { done: scan } = useWords().scan;
  const [making, setMaking] = useState(false);
  const usable = trays.filter(
    ({ emptiedAt, offeredIn, held }) => emptiedAt === null && offeredIn === null && held?.place !== null,
  );
  useScan((scanned) => {
    if (scanned.kind !== 'tray') return undefined;
    if (scanned.job.id !== jobId) return { did: scan.trayOtherJob(scanned.job.number), amiss: true };
    if (!usable.some(({ id }) => id === scanned.id)) return { did: scan.trayElsewhere, amiss: true };
    if (chosen === scanned.id) return { did: scan.trayChosenBefore };
    onChoose(scanned.id);
    return { did: scan.trayChosen, ...(chosen === null ? {} : { undo: () => onChoose(chosen) }) };
  });
  const chosenTray = usable.find(({ id }) => id === chosen);
  return (
    <div className="tray-choice">
      <Choice
        label={words.where}
        value={chosen}
        onChange={onChoose}
        options={[
          ...usable.map(({ id, label, name }) => ({
            value: id,
            label: <span className="num">{label}</span>,
            note: name,
          })),
          { value: WITH_ENGINE, label: words.withEngine },
        ]}
      />
      <Button big onClick={() => setMaking(true)}>
        {words.newTray}
      </Button>
      {chosenTray === undefined ? null : <LabelButton big labels={[{ kind: 'tray', id: chosenTray.id }]} />}
      {making ? (
        <NewTrayDialog
          jobId={jobId}
          onClose={() => setMaking(false)}
          onMade={(id) => {
            onChoose(id);
            setMaking(false);
          }}
        />
      ) : null}
    </div>
  );
}
