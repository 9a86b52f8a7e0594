import { useState } from 'react';
import type { HandoverTray } from '#contracts/custody.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { CountLines, useBlanks } from '../bench/counting.tsx';
import { type Counts, sumOf, useCounts } from '../bench/counts.ts';
import { DifferenceLines } from './difference-lines.tsx';
import { LinePlace, useLinePlace } from './line-place.tsx';

const ATTEMPTS = 3;

interface TrayToCountProps {
  readonly handoverId: string;
  readonly tray: HandoverTray;
  /** The one tray that is counted now. */
  readonly active: boolean;
  /** Whether the engine is open: a piece short may be inside. */
  readonly open: boolean;
  readonly onChoose: () => void;
}

const sum = (counts: readonly (number | null)[]): number => {
  let total = 0;
  for (const count of counts) total += count ?? 0;
  return total;
};

function Compared({ tray }: { readonly tray: HandoverTray }) {
  const words = useWords().handover;
  const counted = sum(tray.lines.map((line) => line.counted));
  const given = sum(tray.lines.map((line) => line.given));
  if (tray.differences.length === 0) return <p className="agrees">{words.agree(counted)}</p>;
  return (
    <dl className="compared">
      <dt>{words.you}</dt>
      <dt>{words.given}</dt>
      <dd className="hot">{counted}</dd>
      <dd>{given}</dd>
    </dl>
  );
}

interface CountingProps {
  readonly handoverId: string;
  readonly tray: HandoverTray;
  readonly counts: Counts;
  readonly onCounted: () => void;
}

function Counting({ handoverId, tray, counts, onCounted }: CountingProps) {
  const words = useWords().handover;
  const writing = useWrite<HandoverTray>();
  const place = useLinePlace();
  const lines = tray.lines.map((line) => {
    const note = place(line);
    return { id: line.lineId, name: line.name, ...(note === '' ? {} : { note }) };
  });
  const blanks = useBlanks(counts, lines);
  const commit = () =>
    writing.write(
      {
        path: `/handovers/${handoverId}/trays/${tray.trayId}/count`,
        body: { lines: lines.map(({ id }) => ({ lineId: id, counted: counts.of(id) })) },
      },
      onCounted,
    );
  return (
    <div className="counting">
      <CountLines label={tray.name} lines={lines} counts={counts} disabled={writing.busy} blind />
      <Refusal error={writing.error} />
      <div className="counting-foot">
        {tray.counted ? null : <p className="note">{words.hidden}</p>}
        {blanks.note}
        <Button big kind="main" disabled={writing.busy} onClick={() => blanks.commit(commit)}>
          {words.myCount(sumOf(counts, lines))}
        </Button>
      </div>
    </div>
  );
}

function LineNames({ lines }: Pick<HandoverTray, 'lines'>) {
  return (
    <ul className="note line-names">
      {lines.map((line) => (
        <li key={line.lineId}>
          {line.name} <LinePlace line={line} />
        </li>
      ))}
    </ul>
  );
}

/** One tray: counted blind, then compared line by line; up to three times. */
export function TrayToCount({ handoverId, tray, active, open, onChoose }: TrayToCountProps) {
  const words = useWords().handover;
  const counts = useCounts(`handover ${handoverId} ${tray.trayId}`);
  const [again, setAgain] = useState(false);
  const { differences, obligations, counted, attempts, label, name, lines } = tray;
  const differs = counted && differences.length > 0;
  const counting = again || (!counted && active);
  return (
    <li className={differs ? 'to-count differs' : 'to-count'}>
      <span className="tray-number num">{label}</span>
      <div className="tray-name">
        <b>{name}</b>
        {counting ? <p className="note">{words.linesIn(lines.length)}</p> : <LineNames lines={lines} />}
      </div>
      {counted ? <Compared tray={tray} /> : null}
      {counted && !differs && obligations.length > 0 ? <p className="note">{words.differedFirst}</p> : null}
      {!counted && !active ? (
        <Button big onClick={onChoose}>
          {words.countThis}
        </Button>
      ) : null}
      {counting ? (
        <Counting handoverId={handoverId} tray={tray} counts={counts} onCounted={() => setAgain(false)} />
      ) : null}
      {differs && !again ? (
        <div className="differing">
          <DifferenceLines differences={differences} open={open} />
          <p className="note">{words.countsLeft(ATTEMPTS - attempts)}</p>
          {attempts < ATTEMPTS ? (
            <Button big onClick={() => setAgain(true)}>
              {words.countAgain}
            </Button>
          ) : null}
        </div>
      ) : null}
    </li>
  );
}
