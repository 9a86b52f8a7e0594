import { useState } from 'react';
import type { CountSheet, HandedIn } from '#contracts/counts.ts';
import type { PartName } from '#contracts/parts.ts';
import { Refusal } from '../../../app/refusal.tsx';
import { useWrite } from '../../../app/write.ts';
import { Button } from '../../../kit/button.tsx';
import { useScan } from '../../../scan/registry.ts';
import { useWords } from '../../../words/words.tsx';
import { CountEntry } from './count-entry.tsx';
import { FoundDialog } from './found-dialog.tsx';
import { type KeptCounts, useKeptCounts } from './kept-counts.ts';
import type { LineToCount } from './line-to-count.ts';
import { LineName } from './line-words.tsx';

interface BenchProps {
  readonly sheet: CountSheet;
  readonly onHandedIn: (handed: HandedIn) => void;
}

const linesToCount = (sheet: CountSheet, kept: KeptCounts): readonly LineToCount[] =>
  sheet.lines
    .filter(({ state }) => state === 'to count' || state === 'to count again' || state === 'counted')
    .map((line) => ({ line, counted: kept.of(line.id) ?? line.counted }));

interface Finding {
  readonly binId: string;
  readonly part: PartName | null;
}

/** Where a round is counted: one line at a time on a big pad, all of them beside it. */
export function CountBench({ sheet, onHandedIn }: BenchProps) {
  const words = useWords().counts;
  const kept = useKeptCounts(sheet.id);
  const lines = linesToCount(sheet, kept);
  const [chosen, setChosen] = useState<string | null>(null);
  const [finding, setFinding] = useState<Finding | null>(null);
  const handing = useWrite<HandedIn>();
  const left = lines.filter(({ counted }) => counted === null).length;
  const now = lines.find(({ line }) => line.id === chosen) ?? lines.find(({ counted }) => counted === null) ?? lines[0];
  const binNow = now?.line.bin.id ?? sheet.bins.find(({ endedAt }) => endedAt === null)?.id ?? '';
  const find = (part: PartName | null) => setFinding({ binId: binNow, part });
  useCountScan({ sheet, lines, onChoose: setChosen, onFind: find });
  const at = lines.findIndex(({ line }) => line.id === now?.line.id);
  const step = (by: number) => setChosen(lines[at + by]?.line.id ?? now?.line.id ?? null);
  const keep = (counted: number) => {
    if (now === undefined) return;
    kept.keep(now.line.id, counted);
    const after = [...lines.slice(at + 1), ...lines.slice(0, at)];
    setChosen((after.find((one) => one.counted === null) ?? lines[at + 1] ?? now).line.id);
  };
  return (
    <div className="count-bench no-print">
      <div className="count-now">
        {now === undefined ? (
          <p className="nothing">{words.sheet.emptyBin}</p>
        ) : (
          <CountEntry key={now.line.id} now={now} onKeep={keep} onStep={step} onFound={() => find(null)} />
        )}
        <div className="kit-acts">
          <Button onClick={() => find(null)}>{words.entry.add}</Button>
          <Button
            kind="main"
            big
            disabled={left > 0 || kept.waiting > 0 || handing.busy}
            onClick={() =>
              handing.write(
                { path: `/count-sheets/${sheet.id}/hand-in`, body: { round: sheet.round.number } },
                onHandedIn,
              )
            }
          >
            {words.entry.handIn}
          </Button>
        </div>
        <p role="status">{words.sheet.left(left)}</p>
        {kept.offline ? (
          <p className="count-note" role="status">
            {words.entry.waiting(kept.waiting)}
          </p>
        ) : null}
        <Refusal error={kept.error ?? handing.error} />
      </div>
      <div className="count-lines-beside">
        <BinsToCount sheet={sheet} lines={lines} nowId={now?.line.id} onChoose={setChosen} />
      </div>
      {finding === null ? null : <FoundDialog sheet={sheet} {...finding} onClose={() => setFinding(null)} />}
    </div>
  );
}

interface BinsProps {
  readonly sheet: CountSheet;
  readonly lines: readonly LineToCount[];
  readonly nowId: string | undefined;
  readonly onChoose: (lineId: string) => void;
}

function BinsToCount({ sheet, lines, nowId, onChoose }: BinsProps) {
  const { sheet: words } = useWords().counts;
  return sheet.bins.map((bin) => {
    const here = lines.filter(({ line }) => line.bin.id === bin.id);
    if (bin.endedAt !== null) return null;
    return (
      <section key={bin.id} className="count-bin">
        <h2>{words.bin(bin.code)}</h2>
        {here.length === 0 ? <p className="nothing">{words.emptyBin}</p> : null}
        <ul>
          {here.map(({ line, counted }) => (
            <li key={line.id}>
              <button
                type="button"
                className="count-line"
                aria-current={line.id === nowId ? 'true' : undefined}
                onClick={() => onChoose(line.id)}
              >
                <span>
                  <LineName line={line} />
                </span>
                {counted === null ? (
                  <span className="hot">{words.state['to count']}</span>
                ) : (
                  <b className="num">{counted}</b>
                )}
              </button>
            </li>
          ))}
        </ul>
      </section>
    );
  });
}

interface ScanOf {
  readonly sheet: CountSheet;
  readonly lines: readonly LineToCount[];
  readonly onChoose: (lineId: string) => void;
  readonly onFind: (part: PartName) => void;
}

/** A part leads to its line, first to one that is not counted; one that is not on the sheet was found. A bin leads to its first line. */
function useCountScan({ sheet, lines, onChoose, onFind }: ScanOf): void {
  const { scan: words } = useWords().counts;
  useScan((scanned) => {
    if (scanned.kind === 'part') {
      const ofPart = lines.filter(({ line }) => line.part.id === scanned.part.id);
      const next = ofPart.find(({ counted }) => counted === null) ?? ofPart[0];
      if (next === undefined) {
        if (sheet.lines.some(({ part }) => part.id === scanned.part.id)) return { did: words.notCounting, amiss: true };
        onFind(scanned.part);
        return { did: words.notOnSheet };
      }
      onChoose(next.line.id);
      return { did: words.line };
    }
    if (scanned.kind !== 'bin') return undefined;
    const first = lines.find(({ line }) => line.bin.id === scanned.id);
    if (first === undefined) return { did: words.otherBin, amiss: true };
    onChoose(first.line.id);
    return { did: words.bin };
  });
}
