import { useState } from 'react';
import type { BenchView } from '#contracts/bench.ts';
import { useMedia } from '../../app/use-media.ts';
import { BladesEntry } from './blades-entry.tsx';
import { FeltEntry } from './felt-entry.tsx';
import { FigureEntry } from './figure-entry.tsx';
import { MeasureDialogs, type SheetName } from './measure-dialogs.tsx';
import { askingOf } from './measuring.ts';
import { PlacePane } from './place-pane.tsx';
import { useMeasuring } from './use-measuring.ts';

/** Left where, in the middle how much and what it means, right the keys; under each other on a phone. */
export function MeasureBench({ bench }: { readonly bench: BenchView }) {
  const measuring = useMeasuring(bench);
  const [sheet, setSheet] = useState<SheetName | null>(null);
  const phone = useMedia('(max-width: 720px)');
  const asking = askingOf(measuring.dimension, measuring.instrument);
  const entry = { measuring, open: setSheet };
  // A new dimension begins with nothing typed.
  const key = `${measuring.round} ${measuring.dimension.code}`;
  return (
    <main className={`measure asks-${asking}`}>
      <PlacePane measuring={measuring} phone={phone} />
      {asking === 'figure' ? <FigureEntry key={key} {...entry} /> : null}
      {asking === 'blades' ? <BladesEntry key={key} {...entry} /> : null}
      {asking === 'felt' ? <FeltEntry key={key} {...entry} /> : null}
      <MeasureDialogs sheet={sheet} measuring={measuring} onClose={() => setSheet(null)} />
    </main>
  );
}
