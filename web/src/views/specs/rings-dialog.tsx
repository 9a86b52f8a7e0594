import { useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { unitsOfKind } from '#domain/units/unit-table.ts';
import { RingClock } from '../../drawings/ring-clock.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { EntryDialog } from './entry-dialog.tsx';
import { FigureField, TextField } from './form-fields.tsx';
import { altered } from './list-order.ts';
import { orNone, plainly } from './plain-figure.ts';
import type { PrintedPlain } from './printed.ts';
import { RowActs } from './row-acts.tsx';
import type { Draft } from './use-draft.ts';

type OfRings = Pick<SpecSheetDocument, 'rings' | 'ringZones' | 'ringSeparation'>;
interface RingsProps {
  readonly entry: OfRings;
  readonly change: (change: Partial<OfRings>) => void;
}

const noAngle: PrintedPlain = { value: '', unit: 'deg' };
const angles = { unit: 'deg', units: unitsOfKind('angle') };

const degrees = ({ value, unit }: PrintedPlain): number | null => {
  const read = parseQuantity(value, unit, 'angle');
  return read.ok ? read.value / 1e6 : null;
};

function Clock({ rings, ringZones }: OfRings) {
  const forbidden = ringZones.flatMap(({ from, to }) => {
    const ends = { from: degrees(from), to: degrees(to) };
    return ends.from === null || ends.to === null ? [] : [{ from: ends.from, to: ends.to }];
  });
  const gaps = rings.map(({ name, angle }, index) => ({ mark: String(index + 1), name, angle: degrees(angle) }));
  return (
    <div className="entry-map">
      <RingClock size={300} gaps={gaps} forbidden={forbidden} />
    </div>
  );
}

function RingRows({ entry: { rings }, change }: RingsProps) {
  const { specForms: all } = useWords();
  const words = all.rings;
  const set = (at: number, next: Partial<OfRings['rings'][number]>) => change({ rings: altered(rings, at, next) });
  return (
    <fieldset className="group">
      <legend>{words.rings}</legend>
      <ol className="entry-rows">
        {rings.map(({ code, name, angle }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a code is changed while it is typed
          <li key={index} className="entry-row three">
            <b className="num entry-number">{index + 1}</b>
            <TextField
              label={all.code}
              at={`/rings/${index}/code`}
              required
              value={code}
              onChange={(next) => set(index, { code: next })}
            />
            <TextField
              label={all.name}
              at={`/rings/${index}/name`}
              required
              value={name}
              onChange={(next) => set(index, { name: next })}
            />
            <FigureField
              label={words.angle}
              at={`/rings/${index}/angle`}
              figure={angle}
              {...angles}
              onChange={(next) => set(index, { angle: next })}
            />
            <RowActs
              what={words.ring(index + 1)}
              list={rings}
              at={index}
              onChange={(next) => change({ rings: next })}
            />
          </li>
        ))}
      </ol>
      <Button
        disabled={rings.length >= 20}
        onClick={() => change({ rings: [...rings, { code: '', name: '', angle: noAngle }] })}
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

const tidied = ({ rings, ringZones, ringSeparation }: OfRings): OfRings => ({
  rings: rings.map(({ code, name, angle }) => ({ code: code.trim(), name: name.trim(), angle: plainly(angle) })),
  ringZones: ringZones.map(({ from, to, reason }) => ({ from: plainly(from), to: plainly(to), reason: reason.trim() })),
  ringSeparation: orNone(ringSeparation),
});

/** The rings of the draft: at what angle each gap lies, where none may, and how far apart they are at least. */
export function RingsDialog({ draft, onClose }: { readonly draft: Draft; readonly onClose: () => void }) {
  const words = useWords().specForms.rings;
  const { rings, ringZones, ringSeparation } = draft.document;
  const [entry, setEntry] = useState<OfRings>({ rings, ringZones, ringSeparation });
  const fields: RingsProps = { entry, change: (next) => setEntry({ ...entry, ...next }) };
  return (
    <EntryDialog
      draft={draft}
      title={words.title}
      base=""
      fields={['/rings', '/ringZones', '/ringSeparation']}
      kept={() => ({ ...draft.document, ...tidied(entry) })}
      onClose={onClose}
    >
      <p className="note">{words.what}</p>
      <Clock {...entry} />
      <RingRows {...fields} />
      <FigureField
        label={words.separation}
        at="/ringSeparation"
        figure={entry.ringSeparation}
        {...angles}
        onChange={(next) => fields.change({ ringSeparation: next })}
      />
      <ZoneRows {...fields} />
    </EntryDialog>
  );
}
