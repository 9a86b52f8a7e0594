import { useState } from 'react';
import { unitsOfKind } from '#domain/units/unit-table.ts';
import { useWords } from '../../words/words.tsx';
import { EntryDialog } from './entry-dialog.tsx';
import { FigureField, SelectField, TextField } from './form-fields.tsx';
import { without } from './list-order.ts';
import { orNone, plainly } from './plain-figure.ts';
import type { PrintedPlain, PrintedValve } from './printed.ts';
import type { Draft } from './use-draft.ts';

const nothing: PrintedPlain = { value: '', unit: 'mm' };
const newValve: PrintedValve = {
  code: '',
  name: '',
  side: 'intake',
  dimension: '',
  wanted: nothing,
  adjuster: 'shim under bucket',
  shimDiameter: null,
  shimSizes: null,
  screwPitch: null,
};
const sides = ['intake', 'exhaust'] as const;
const adjusters = ['shim under bucket', 'shim on bucket', 'screw'] as const;

/** As it is sent: what belongs to another adjuster is left out. */
function tidied(of: PrintedValve): PrintedValve {
  const screw = of.adjuster === 'screw';
  const [low, high] = [of.shimSizes?.low ?? nothing, of.shimSizes?.high ?? nothing];
  const neither = low.value.trim() === '' && high.value.trim() === '';
  return {
    ...of,
    code: of.code.trim(),
    name: of.name.trim(),
    wanted: plainly(of.wanted),
    shimDiameter: screw ? null : orNone(of.shimDiameter),
    shimSizes: screw || neither ? null : { low: plainly(low), high: plainly(high) },
    screwPitch: screw ? orNone(of.screwPitch) : null,
  };
}

interface EntryProps {
  readonly entry: PrintedValve;
  readonly change: (next: Partial<PrintedValve>) => void;
}

/** What its adjuster is made in: shims by diameter and size, a screw by pitch. */
function AdjusterFields({ entry, change }: EntryProps) {
  const words = useWords().specForms.valves;
  const units = { units: unitsOfKind('length'), unit: 'mm' };
  const { adjuster, shimDiameter, screwPitch } = entry;
  const sizes = entry.shimSizes ?? { low: nothing, high: nothing };
  if (adjuster === 'screw')
    return (
      <FigureField
        label={words.pitch}
        at="/screwPitch"
        figure={screwPitch}
        {...units}
        onChange={(next) => change({ screwPitch: next })}
      />
    );
  return (
    <>
      <FigureField
        label={words.diameter}
        at="/shimDiameter"
        figure={shimDiameter}
        {...units}
        onChange={(next) => change({ shimDiameter: next })}
      />
      <FigureField
        label={words.thinnest}
        at={entry.shimSizes === null ? '/shimSizes' : '/shimSizes/low'}
        figure={sizes.low}
        {...units}
        onChange={(low) => change({ shimSizes: { ...sizes, low } })}
      />
      <FigureField
        label={words.thickest}
        at="/shimSizes/high"
        figure={sizes.high}
        {...units}
        onChange={(high) => change({ shimSizes: { ...sizes, high } })}
      />
    </>
  );
}

interface Props {
  readonly draft: Draft;
  /** Its place in the list; that after the last: a new one. */
  readonly at: number;
  readonly onClose: () => void;
}

/** One valve of the draft: the dimension that its lash is, what is wanted, and what it is adjusted by. */
export function ValveDialog({ draft, at, onClose }: Props) {
  const { specForms: all } = useWords();
  const words = all.valves;
  const { document } = draft;
  const before = document.valves[at];
  const [entry, setEntry] = useState(before ?? newValve);
  const change = (next: Partial<PrintedValve>) => setEntry({ ...entry, ...next });
  const put = () => [...document.valves.slice(0, at), tidied(entry), ...document.valves.slice(at + 1)];
  const lengths = document.dimensions.filter(({ kind }) => kind === 'length');
  return (
    <EntryDialog
      draft={draft}
      title={before === undefined ? words.addTitle : words.editTitle(before.name)}
      base={`/valves/${at}`}
      kept={() => ({ ...document, valves: put() })}
      removal={
        before === undefined
          ? undefined
          : { words: words.remove, document: { ...document, valves: without(document.valves, at) } }
      }
      onClose={onClose}
    >
      <div className="pair">
        <TextField label={all.code} at="/code" required value={entry.code} onChange={(code) => change({ code })} />
        <TextField label={all.name} at="/name" required value={entry.name} onChange={(name) => change({ name })} />
        <SelectField
          label={words.side}
          at="/side"
          value={entry.side}
          options={sides.map((side) => [side, words.sides[side]] as const)}
          onChange={(side) => side !== null && change({ side })}
        />
        <SelectField
          label={words.dimension}
          at="/dimension"
          none={all.choose}
          value={entry.dimension}
          options={lengths.map(({ code, name }) => [code, name] as const)}
          onChange={(dimension) => change({ dimension: dimension ?? '' })}
        />
        <FigureField
          label={words.wanted}
          at="/wanted"
          figure={entry.wanted}
          unit="mm"
          units={unitsOfKind('length')}
          onChange={(wanted) => change({ wanted })}
        />
        <SelectField
          label={words.adjuster}
          at="/adjuster"
          value={entry.adjuster}
          options={adjusters.map((one) => [one, words.adjusters[one]] as const)}
          onChange={(adjuster) => adjuster !== null && change({ adjuster })}
        />
        <AdjusterFields entry={entry} change={change} />
      </div>
    </EntryDialog>
  );
}
