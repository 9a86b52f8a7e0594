import type { CountDifference, Tray, Trays } from '#contracts/custody.ts';
import { RefusedError } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { CountLines } from './counting.tsx';
import type { Counts } from './counts.ts';

/** A tray that is counted, or what lies beside the engine in no tray: the engine's id stands for its tray then. */
type Counted = Pick<Tray, 'id' | 'label' | 'name' | 'pieces'>;

/** What is counted of a job when some trays move, and the engine itself with what lies beside it. */
export function useToCount(
  trays: Trays | undefined,
  of: { readonly engineId: string; readonly itself: boolean; readonly trayIds: readonly string[] },
): readonly Counted[] {
  const { move: words } = useWords().myBench;
  if (trays === undefined) return [];
  const chosen = trays.items.filter(({ id }) => of.trayIds.includes(id));
  if (!of.itself || trays.withEngine.length === 0) return chosen;
  return [...chosen, { id: of.engineId, label: '', name: words.withEngine, pieces: trays.withEngine }];
}

interface CountedLine {
  readonly id: string;
  readonly trayId: string;
  readonly pieceId: string;
  readonly name: string;
}

/** Every loose piece of a tray that moves is counted: a line each. */
export const linesOf = (tray: Counted): CountedLine[] =>
  tray.pieces.map(({ pieceId, name }) => ({ id: `${tray.id} ${pieceId}`, trayId: tray.id, pieceId, name }));

export const countsOf = (lines: readonly CountedLine[], counts: Counts) =>
  lines.map(({ id, trayId, pieceId }) => ({ trayId, pieceId, counted: counts.of(id) }));

interface TrayCountsProps {
  readonly trays: readonly Counted[];
  readonly counts: Counts;
  readonly disabled: boolean;
}

/** Trays to be counted before they move; what should be there shows after. */
export function TrayCounts({ trays, counts, disabled }: TrayCountsProps) {
  const { move: words } = useWords().myBench;
  return (
    <>
      {trays.length === 0 ? null : <p>{words.count}</p>}
      {trays.map((tray) => (
        <section key={tray.id} className="count-tray">
          <h3>
            <span className="num">{tray.label}</span> {tray.name}
          </h3>
          {tray.pieces.length === 0 ? (
            <p className="note">{words.emptyTray}</p>
          ) : (
            <CountLines
              label={tray.label || tray.name}
              lines={linesOf(tray)}
              counts={counts}
              disabled={disabled}
              blind
            />
          )}
        </section>
      ))}
    </>
  );
}

/** The differences a refused count names; undefined: it was refused for something else. */
function differencesIn(error: Error | null): readonly CountDifference[] | undefined {
  if (!(error instanceof RefusedError)) return undefined;
  const { differences } = error.problem;
  return Array.isArray(differences) ? (differences as readonly CountDifference[]) : undefined;
}

interface DifferingProps {
  readonly error: Error | null;
  readonly disabled: boolean;
  /** Goes on with the difference, which somebody then has to settle. */
  readonly goOn: () => void;
}

/** Why a move was refused: by a count that differs, piece by piece, or by anything else. */
export function Differing({ error, disabled, goOn }: DifferingProps) {
  const { move: words } = useWords().myBench;
  const differences = differencesIn(error);
  if (differences === undefined) return <Refusal error={error} />;
  return (
    <div className="hands-stop" role="alert">
      <h3>{words.differs}</h3>
      <ul>
        {differences.map(({ trayId, tray, piece, counted, given }) => (
          <li key={`${trayId} ${piece}`}>{words.difference(tray, piece, counted, given)}</li>
        ))}
      </ul>
      <p>{words.countAgain}</p>
      <Button big disabled={disabled} onClick={goOn}>
        {words.withDifference}
      </Button>
    </div>
  );
}
