import { useEffect, useRef } from 'react';
import type { BenchInstrument } from '#contracts/bench.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { type Format, useFormat } from '../../words/format.ts';
import { useWords, type Words } from '../../words/words.tsx';
import type { Measuring } from './use-measuring.ts';

interface SheetProps {
  readonly measuring: Measuring;
  readonly open: boolean;
  readonly onClose: () => void;
}

function noteOf(
  gauge: BenchInstrument,
  outOfReach: boolean,
  { format, words: { measure } }: { readonly format: Format; readonly words: Words },
): string {
  const words = measure.gauge;
  const { low, high } = gauge.range;
  return [
    outOfReach ? words.outOfReach : '',
    words.range(format.decimal(low.value), format.decimal(high.value), gauge.unit),
    gauge.outOfCalibration && gauge.calibrationDue !== null
      ? words.overdue(format.day(gauge.calibrationDue))
      : gauge.calibrationDue === null
        ? ''
        : words.due(format.day(gauge.calibrationDue)),
    gauge.check?.today === true ? words.today : words.notToday,
  ]
    .filter((text) => text !== '')
    .join(', ');
}

/** Arrow keys move through the gauges from the one in use, Enter goes back with it. */
function GaugeForm({ measuring, onClose }: Omit<SheetProps, 'open'>) {
  const words = useWords();
  const format = useFormat();
  const form = useRef<HTMLFormElement>(null);
  const { bench, dimension, instrument, place } = measuring;
  const offered = dimension.instruments.flatMap((code) => bench.instruments.filter((one) => one.code === code));
  const held = place?.taken.some(({ state }) => state !== 'refused') ?? false;
  useEffect(() => {
    form.current?.querySelector<HTMLElement>('input:checked:enabled, [type="submit"]')?.focus();
  }, []);
  return (
    <form
      ref={form}
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      {held ? <p className="hot">{words.measure.gauge.held}</p> : null}
      <Choice
        label={dimension.name}
        disabled={held}
        value={instrument?.code ?? null}
        onChange={measuring.takeGauge}
        options={offered.map((gauge) => ({
          value: gauge.code,
          label: `${gauge.name} ${gauge.code}`,
          note: noteOf(gauge, dimension.outOfReach.includes(gauge.code), { format, words }),
        }))}
      />
      <div className="dialog-acts">
        <Button big kind="main" type="submit">
          {words.measure.choose.close}
        </Button>
      </div>
    </form>
  );
}

/** Which gauge the readings are taken with; unit and decimals follow it. */
export function GaugeDialog({ measuring, open, onClose }: SheetProps) {
  const { measure } = useWords();
  return (
    <Dialog title={measure.gauge.title} open={open} onClose={onClose}>
      <GaugeForm measuring={measuring} onClose={onClose} />
    </Dialog>
  );
}
