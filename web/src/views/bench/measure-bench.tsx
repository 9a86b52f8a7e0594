import { useState } from 'react';
import type { BenchView } from '#contracts/bench.ts';
import { useMedia } from '../../app/use-media.ts';
import { BladesEntry } from './blades-entry.tsx';
import { FeltEntry } from './felt-entry.tsx';
import { FigureEntry } from './figure-entry.tsx';
import { MeasureDialogs, type SheetName } from './measure-dialogs.tsx';
import { askingOf, measuredOf } from './measuring.ts';
import { PlacePane } from './place-pane.tsx';
import { useCommands } from './use-keys.ts';
import { type Measuring, useMeasuring } from './use-measuring.ts';

/** Goes so many places on from the asked one; past the last there is none, which is where all are read. */
function goPlaces({ standings, place, choose }: Measuring, by: 1 | -1): void {
  const at = place === undefined ? standings.length : standings.indexOf(place);
  const to = standings[Math.max(0, at + by)];
  choose({ position: to?.position.code ?? null });
}

function goDimensions({ bench, dimension, choose }: Measuring, by: 1 | -1): void {
  const all = measuredOf(bench);
  const to = all[all.indexOf(dimension) + by];
  if (to !== undefined) choose({ code: to.code });
}

/** Left where, in the middle how much and what it means, right the keys; under each other on a phone. */
export function MeasureBench({ bench }: { readonly bench: BenchView }) {
  const measuring = useMeasuring(bench);
  const [sheet, setSheet] = useState<SheetName | null>(null);
  const phone = useMedia('(max-width: 720px)');
  const asking = askingOf(measuring.dimension, measuring.instrument);
  const entry = { measuring, open: setSheet };
  useCommands({
    list: () => setSheet('list'),
    ...(asking === 'felt' ? {} : { gauge: () => setSheet('gauge') }),
    ...(asking === 'felt' || measuring.dimension.kind !== 'length'
      ? {}
      : { temperature: () => setSheet('temperature') }),
    'place before': () => goPlaces(measuring, -1),
    'place after': () => goPlaces(measuring, 1),
    'dimension before': () => goDimensions(measuring, -1),
    'dimension after': () => goDimensions(measuring, 1),
  });
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
