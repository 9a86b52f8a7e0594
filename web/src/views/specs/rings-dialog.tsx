import { useState } from 'react';
import { RingClock } from '../../drawings/ring-clock.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { EntryDialog } from './entry-dialog.tsx';
import { FigureField, TextField } from './form-fields.tsx';
import { altered } from './list-order.ts';
import { orNone, plainly } from './plain-figure.ts';
import { type OfRings, ringAims, zonesInDegrees } from './ring-aims.ts';
import { angles, noAngle, RingRow } from './ring-row.tsx';
import { RowActs } from './row-acts.tsx';
import type { Draft } from './use-draft.ts';

interface RingsProps {
  readonly entry: OfRings;
  readonly change: (change: Partial<OfRings>) => void;
}

function Clock({ entry }: { readonly entry: OfRings }) {
  const aims = ringAims(entry);
  const gaps = entry.rings.map(({ name }, index) => ({
    mark: String(index + 1),
    name,
    angle: aims[index]?.angle ?? null,
  }));
  return (
    <div className="entry-map">
      <RingClock size={300} gaps={gaps} forbidden={zonesInDegrees(entry)} />
    </div>
  );
}

function RingRows({ entry, change }: RingsProps) {
  const words = useWords().specForms.rings;
  const { rings } = entry;
  const aims = ringAims(entry);
  return (
    <fieldset className="group">
      <legend>{words.rings}</legend>
      <ol className="entry-rows">
        {rings.map((ring, index) => (
          <RingRow
            // biome-ignore lint/suspicious/noArrayIndexKey: a code is changed while it is typed
            key={index}
            rings={rings}
            at={index}
            ring={ring}
            aim={aims[index] ?? null}
            onChange={(next) => change({ rings: next })}
          />
        ))}
      </ol>
      <Button
        disabled={rings.length >= 20}
        onClick={() => change({ rings: [...rings, { code: '', name: '', angle: null }] })}
      >
        {words.addRing}
      </Button>
    </fieldset>
  );
}

function ZoneRows({ entry: { ringZones: zones }, change }: RingsProps) {
  const words = useWords().specForms.rings;
  const set = (at: number, next: Partial<OfRings['ringZones'][number]>) =>
    change({ ringZones: altered(zones, at, next) });
  return (
    <fieldset className="group">
      <legend>{words.zones}</legend>
      <ol className="entry-rows">
        {zones.map(({ from, to, reason }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a zone has no name of its own
          <li key={index} className="entry-row three">
            <b className="num entry-number">{index + 1}</b>
            <FigureField
              label={words.from}
              at={`/ringZones/${index}/from`}
              figure={from}
              {...angles}
              onChange={(next) => set(index, { from: next })}
            />
            <FigureField
              label={words.to}
              at={`/ringZones/${index}/to`}
              figure={to}
              {...angles}
              onChange={(next) => set(index, { to: next })}
            />
            <TextField
              label={words.reason}
              at={`/ringZones/${index}/reason`}
              value={reason}
              onChange={(next) => set(index, { reason: next })}
            />
            <RowActs
              what={words.zone(index + 1)}
              list={zones}
              at={index}
              onChange={(next) => change({ ringZones: next })}
            />
          </li>
        ))}
      </ol>
      <Button
        disabled={zones.length >= 20}
        onClick={() => change({ ringZones: [...zones, { from: noAngle, to: noAngle, reason: '' }] })}
      >
        {words.addZone}
      </Button>
    </fieldset>
  );
}

const tidied = ({ rings, ringZones, ringSeparation, railOffset }: OfRings): OfRings => ({
  rings: rings.map(({ code, name, angle, pin, mark, ...ring }) => ({
    ...ring,
    code: code.trim(),
    name: name.trim(),
    angle: orNone(angle),
    pin: orNone(pin ?? null),
    mark: (mark ?? '').trim(),
  })),
  ringZones: ringZones.map(({ from, to, reason }) => ({ from: plainly(from), to: plainly(to), reason: reason.trim() })),
  ringSeparation: orNone(ringSeparation),
  railOffset: orNone(railOffset ?? null),
});

/** The rings of the draft: where each gap goes and who says so, where none may lie, how far apart they are, how marks face. */
export function RingsDialog({ draft, onClose }: { readonly draft: Draft; readonly onClose: () => void }) {
  const words = useWords().specForms.rings;
  const { rings, ringZones, ringSeparation, railOffset } = draft.document;
  const [entry, setEntry] = useState<OfRings>({ rings, ringZones, ringSeparation, railOffset });
  const fields: RingsProps = { entry, change: (next) => setEntry({ ...entry, ...next }) };
  return (
    <EntryDialog
      draft={draft}
      title={words.title}
      base=""
      fields={['/rings', '/ringZones', '/ringSeparation', '/railOffset']}
      kept={() => ({ ...draft.document, ...tidied(entry) })}
      onClose={onClose}
    >
      <p className="note">{words.what}</p>
      <Clock entry={entry} />
      <RingRows {...fields} />
      <FigureField
        label={words.separation}
        at="/ringSeparation"
        figure={entry.ringSeparation}
        {...angles}
        onChange={(next) => fields.change({ ringSeparation: next })}
      />
      <FigureField
        label={words.railOffset}
        at="/railOffset"
        figure={entry.railOffset ?? null}
        {...angles}
        onChange={(next) => fields.change({ railOffset: next })}
      />
      <ZoneRows {...fields} />
    </EntryDialog>
  );
}
