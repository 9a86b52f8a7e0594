import { queryOptions, useQuery } from '@tanstack/react-query';
import type { FamilyWear, WearHistory } from '#contracts/engines.ts';
import { read } from '../../app/api.ts';
import { WearChart } from '../../drawings/wear-chart.tsx';
import { englishWords } from '../../drawings/words.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { useWidth } from './use-width.ts';
import { wearSentence } from './wear-sentence.ts';

const familyWearQuery = (engineId: string) =>
  queryOptions({
    queryKey: ['family-wear', engineId],
    queryFn: ({ signal }) => read<FamilyWear>(`/engines/${engineId}/family-wear`, signal),
    meta: { follows: { engineId } },
  });

const decimals = ({ points }: WearHistory): number => points[0]?.value.value.split('.')[1]?.length ?? 0;

function Chart({
  history,
  limit,
  width,
}: {
  readonly history: WearHistory;
  readonly limit: number;
  readonly width: number;
}) {
  const words = useWords().engine;
  const format = useFormat();
  const points = history.points.map(({ partHours, value, guard }) => ({
    hours: Number(partHours),
    value: Number(value.value),
    guard: Number(guard.value),
  }));
  const last = Math.max(0, ...points.map(({ hours }) => hours));
  const band = history.line?.band ?? [];
  const [first, end] = [band.at(0), band.at(-1)];
  const { earliest = null, latest = null } = history.line?.hoursLeft ?? {};
  const at = (place: (typeof band)[number]) => ({
    hours: Number(place.partHours),
    value: Number(place.expected.value),
  });
  return (
    <WearChart
      points={points}
      limit={limit}
      line={first === undefined || end === undefined ? null : [at(first), at(end)]}
      band={band.map(({ partHours, low, high }) => ({
        hours: Number(partHours),
        low: Number(low.value),
        high: Number(high.value),
      }))}
      reach={
        earliest === null || latest === null || Number(earliest) <= 0
          ? null
          : { earliest: last + Number(earliest), latest: last + Number(latest) }
      }
      decimals={decimals(history)}
      format={format.number}
      width={width}
      height={300}
      words={{ ...englishWords, wear: { ...englishWords.wear, hours: words.partHours } }}
    />
  );
}

/** How that compares with other engines of the family; nothing where too few of them were measured often enough. */
function AmongFamily({ history, engineId }: { readonly history: WearHistory; readonly engineId: string }) {
  const among = useQuery(familyWearQuery(engineId)).data?.items.find(
    ({ dimension, fittedPartId }) => dimension === history.dimension && fittedPartId === history.fittedPartId,
  );
  if (among === undefined) return null;
  return <p className={among.standing === 'odd' || among.standing === 'fast' ? 'hot' : 'note'}>{among.words}</p>;
}

/** One dimension over the hours of the part, and what follows from it in a sentence. */
export function WearSection({ history, engineId }: { readonly history: WearHistory; readonly engineId: string }) {
  const words = useWords().engine;
  const format = useFormat();
  const [box, width] = useWidth<HTMLDivElement>(560);
  const heading = `wear-${history.dimension}-${history.fittedPartId}`;
  const { line, limit } = history;
  return (
    <section className="page-part" aria-labelledby={heading}>
      <h2 id={heading}>{words.wear(history.name)}</h2>
      <div ref={box}>
        {limit === null || history.points.length === 0 ? null : (
          <Chart history={history} limit={Number(limit.value.value)} width={Math.min(Math.max(width, 300), 760)} />
        )}
      </div>
      <p>{wearSentence(history, words)}</p>
      {history.about === null ? null : <p className="note">{history.about}</p>}
      {line === null ? null : (
        <p className="note">
          {words.wearRate(words.withUnit(format.decimal(line.perHundredHours.value), line.perHundredHours.unit))}
        </p>
      )}
      <AmongFamily history={history} engineId={engineId} />
    </section>
  );
}

/** What wears more slowly than the parts drawn: a line each, and the charts when they're asked for. */
export function WearOthers({
  histories,
  drawAll,
}: {
  readonly histories: readonly WearHistory[];
  readonly drawAll: () => void;
}) {
  const words = useWords().engine;
  if (histories.length === 0) return null;
  return (
    <section className="page-part" aria-labelledby="wear-others">
      <h2 id="wear-others">{words.wearOthers}</h2>
      <dl className="wear-others">
        {histories.map((history) => (
          <div key={`${history.dimension} ${history.fittedPartId}`}>
            <dt>{history.name}</dt>
            <dd>{wearSentence(history, words)}</dd>
          </div>
        ))}
      </dl>
      <p className="measure-more no-print">
        <Button onClick={drawAll}>{words.wearDrawAll(histories.length)}</Button>
      </p>
    </section>
  );
}

/** Dimensions of parts measured too seldom to say how fast they wear: named, not charted. */
export function WearUnknown({ histories }: { readonly histories: readonly WearHistory[] }) {
  const words = useWords().engine;
  if (histories.length === 0) return null;
  return (
    <section className="page-part" aria-labelledby="wear-unknown">
      <h2 id="wear-unknown">{words.wearNone}</h2>
      <p className="note">{words.wearNoneWhy}</p>
      <ul className="wear-unknown">
        {histories.map(({ dimension, fittedPartId, name, points }) => (
          <li key={`${dimension} ${fittedPartId}`}>{words.wearReadings(name, points.length)}</li>
        ))}
      </ul>
    </section>
  );
}
