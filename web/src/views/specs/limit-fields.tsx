import { unitsOfKind } from '#domain/units/unit-table.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type EntryProps, newLimits } from './dimension-entry.ts';
import { FigureField, TextField } from './form-fields.tsx';
import type { PrintedFigure, PrintedLimits } from './printed.ts';

type Bound = readonly ['standard' | 'service', 'low' | 'high'];
const bounds: readonly Bound[] = [
  ['standard', 'low'],
  ['standard', 'high'],
  ['service', 'low'],
  ['service', 'high'],
];

/** The limits of each size class: digits, unit, and where a figure stands when not where its dimension does. */
export function LimitFields({ entry, change }: EntryProps) {
  const { specs: all } = useWords();
  const words = all.form;
  const set = (index: number, limits: PrintedLimits) =>
    change({ limits: entry.limits.map((one, at) => (at === index ? limits : one)) });
  return (
    <fieldset className="group">
      <legend>{words.limits}</legend>
      {entry.limits.map((limits, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a size class is renamed while it is typed
        <div key={index} className="size-class">
          <TextField
            label={words.sizeClass}
            value={limits.sizeClass}
            onChange={(sizeClass) => set(index, { ...limits, sizeClass })}
          />
          <div className="pair">
            {bounds.map((bound) => (
              <BoundFields
                key={bound.join()}
                bound={bound}
                limits={limits}
                entry={entry}
                onChange={(next) => set(index, next)}
              />
            ))}
          </div>
          <Button
            aria-label={words.removeClass(limits.sizeClass)}
            onClick={() => change({ limits: entry.limits.filter((_, at) => at !== index) })}
          >
            {words.removeClass(limits.sizeClass)}
          </Button>
        </div>
      ))}
      <Button
        onClick={() => change({ limits: [...entry.limits, newLimits(entry.limits.length === 0 ? 'standard' : '')] })}
      >
        {words.addClass}
      </Button>
    </fieldset>
  );
}

interface BoundProps {
  readonly bound: Bound;
  readonly limits: PrintedLimits;
  readonly entry: EntryProps['entry'];
  readonly onChange: (limits: PrintedLimits) => void;
}

function BoundFields({ bound: [range, side], limits, entry, onChange }: BoundProps) {
  const { specs: all } = useWords();
  const words = all.form;
  const figure = limits[range][side];
  const label = {
    standard: { low: all.standardLow, high: all.standardHigh },
    service: { low: all.serviceLow, high: all.serviceHigh },
  }[range][side];
  const set = (next: PrintedFigure) => onChange({ ...limits, [range]: { ...limits[range], [side]: next } });
  return (
    <div className="bound">
      <FigureField
        label={label}
        figure={figure}
        unit={entry.unit}
        units={unitsOfKind(entry.kind)}
        onChange={(next) => set({ ...figure, ...next })}
      />
      {figure === null || figure.value === '' ? null : (
        <div className="pair">
          <TextField
            label={words.figureSource}
            value={figure.source ?? ''}
            onChange={(source) => set({ ...figure, source })}
          />
          <TextField label={words.figurePage} value={figure.page ?? ''} onChange={(page) => set({ ...figure, page })} />
        </div>
      )}
    </div>
  );
}
