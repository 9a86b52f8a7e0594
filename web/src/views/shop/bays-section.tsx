import { useState } from 'react';
import { bayKinds } from '#contracts/bays.ts';
import type { ShopFacts } from '#contracts/shop.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { FloorPlan } from './floor-plan.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

type Bay = ShopFacts['bays'][number];
const measures = ['column', 'row', 'width', 'height'] as const;
type Kind = (typeof bayKinds)[number];

const whole = (text: string): number => (/^\d{1,3}$/.test(text.trim()) ? Number(text) : Number.NaN);

/** The first cell under all bays: somewhere to begin with a new one. */
const freeCell = (bays: readonly Bay[]) => ({
  column: 1,
  row: Math.max(0, ...bays.map(({ grid }) => grid.row + grid.height - 1)) + 1,
  width: 1,
  height: 1,
});

function BayDialog({
  bay,
  bays,
  onClose,
}: {
  readonly bay: Bay | null;
  readonly bays: readonly Bay[];
  readonly onClose: () => void;
}) {
  const { bays: words, name: nameWord, changeOf } = useWords().shop;
  const writing = useWrite();
  const [name, setName] = useState(bay?.name ?? '');
  const [kind, setKind] = useState<Kind>(bay?.kind ?? 'strip');
  const [capacity, setCapacity] = useState(String(bay?.capacity ?? 1));
  const first = bay?.grid ?? freeCell(bays);
  const [cells, setCells] = useState({
    column: String(first.column),
    row: String(first.row),
    width: String(first.width),
    height: String(first.height),
  });
  const grid = {
    column: whole(cells.column),
    row: whole(cells.row),
    width: whole(cells.width),
    height: whole(cells.height),
  };
  const drawable = Object.values(grid).every((figure) => figure >= 1 && figure <= 100);
  const drawn = [
    ...bays.filter(({ id }) => id !== bay?.id),
    ...(drawable ? [{ id: 'this', name: name === '' ? '?' : name, grid }] : []),
  ];
  const body = { name, kind, capacity: whole(capacity), grid };
  const keep = () =>
    writing.write(bay === null ? { path: '/bays', body } : { path: `/bays/${bay.id}`, method: 'PATCH', body }, onClose);
  return (
    <SetUpDialog
      title={bay === null ? words.add : changeOf(bay.name)}
      writing={writing}
      keep={keep}
      onClose={onClose}
      said={['/name', '/capacity']}
      ready={name.trim() !== '' && whole(capacity) >= 1 && drawable}
      adding={bay === null}
      more={
        bay === null ? undefined : (
          <Button
            disabled={writing.busy}
            onClick={() => writing.write({ path: `/bays/${bay.id}/give-up`, body: {} }, onClose)}
          >
            {words.giveUp}
          </Button>
        )
      }
    >
      <div className="pair">
        <TextField label={nameWord} value={name} onChange={setName} pointer="/name" error={writing.error} most={60} />
        <Field label={words.kind}>
          {(input) => (
            <select
              {...input}
              value={kind}
              onChange={({ target }) => setKind(bayKinds.find((one) => one === target.value) ?? kind)}
            >
              {bayKinds.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          )}
        </Field>
        <TextField
          label={words.capacity}
          value={capacity}
          onChange={setCapacity}
          pointer="/capacity"
          error={writing.error}
          numeric
          most={3}
        />
      </div>
      <div className="pair cells">
        {measures.map((measure) => (
          <TextField
            key={measure}
            label={words[measure]}
            value={cells[measure]}
            onChange={(value) => setCells({ ...cells, [measure]: value })}
            pointer={`/grid/${measure}`}
            error={writing.error}
            numeric
            most={3}
          />
        ))}
      </div>
      <p className="note">{words.gridHint}</p>
      <FloorPlan bays={drawn} setting="this" />
    </SetUpDialog>
  );
}

/** Where engines stand, on the plan and one by one. */
export function BaysSection({ bays }: { readonly bays: readonly Bay[] }) {
  const { bays: words, change, changeOf } = useWords().shop;
  const [changing, setChanging] = useState<Bay | 'new' | null>(null);
  return (
    <section aria-labelledby="shop-bays">
      <div className="set-up-head">
        <h2 id="shop-bays">{words.title}</h2>
        <Button onClick={() => setChanging('new')}>{words.add}</Button>
      </div>
      <div className="bays-set-up">
        <FloorPlan bays={bays} />
        <ul className="set-up-lines">
          {bays.map((bay) => (
            <li key={bay.id} className="set-up-line">
              <div>
                <b>{bay.name}</b>
                <span className="note line">{bay.kind}</span>
              </div>
              <span className="note">{words.takes(bay.capacity)}</span>
              <div className="set-up-acts">
                <Button aria-label={changeOf(bay.name)} onClick={() => setChanging(bay)}>
                  {change}
                </Button>
              </div>
            </li>
          ))}
        </ul>
      </div>
      {changing === null ? null : (
        <BayDialog bay={changing === 'new' ? null : changing} bays={bays} onClose={() => setChanging(null)} />
      )}
    </section>
  );
}
