import type { BenchDimension } from '#contracts/bench.ts';
import { rounds } from '#domain/obligations/disposition.ts';
import { VerdictSign } from '../../drawings/verdict-sign.tsx';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { findingIn, measuredOf } from './measuring.ts';
import type { Measuring } from './use-measuring.ts';

interface DimensionListProps {
  readonly measuring: Measuring;
  readonly open: boolean;
  readonly onClose: () => void;
  readonly onFile: () => void;
}

interface RowProps {
  readonly dimension: BenchDimension;
  readonly measuring: Measuring;
  readonly onChoose: (() => void) | undefined;
}

function Row({ dimension, measuring, onChoose }: RowProps) {
  const { measure } = useWords();
  const finding = findingIn(dimension, measuring.round);
  const of = dimension.positions.length;
  const done = of - measuring.openIn(dimension).length;
  const current = measuring.dimension.code === dimension.code;
  const facts = (
    <>
      <span className="row-name">{dimension.name}</span>
      <span className="note num">
        {onChoose === undefined ? measure.choose.derived : measure.choose.done(done, of)}
      </span>
      <span
        className={
          finding?.verdict === 'undecided' || finding?.verdict === 'past the limit' ? 'row-verdict hot' : 'row-verdict'
        }
      >
        <VerdictSign verdict={finding?.verdict ?? 'not measured'} width={36} />
        {finding?.verdict ?? measure.choose.none}
      </span>
    </>
  );
  return (
    <li>
      {onChoose === undefined ? (
        <div className="dimension-row">{facts}</div>
      ) : (
        <button type="button" className="dimension-row" aria-current={current ? 'true' : undefined} onClick={onChoose}>
          {facts}
        </button>
      )}
    </li>
  );
}

/** Every dimension of the sheet by place: what is read, what is missing, and what it amounts to. */
export function DimensionList({ measuring, open, onClose, onFile }: DimensionListProps) {
  const { measure } = useWords();
  const { bench, round } = measuring;
  const measured = new Set(measuredOf(bench).map(({ code }) => code));
  const places = bench.places.filter(({ code }) => bench.dimensions.some(({ placeCode }) => placeCode === code));
  return (
    <Dialog
      title={measure.choose.title}
      open={open}
      onClose={onClose}
      acts={
        <>
          <Button big kind="main" onClick={onClose}>
            {measure.choose.close}
          </Button>
          <Button big onClick={onFile}>
            {measure.choose.import}
          </Button>
        </>
      }
    >
      <div className="dimension-list">
        <Choice
          label={measure.round}
          value={round}
          onChange={(one) => measuring.choose({ round: one })}
          options={rounds.map((one) => ({ value: one, label: measure.rounds[one] }))}
        />
        {places.map((place) => (
          <section key={place.code}>
            <h3>{place.name}</h3>
            <ul>
              {bench.dimensions
                .filter(({ placeCode }) => placeCode === place.code)
                .map((dimension) => (
                  <Row
                    key={dimension.code}
                    dimension={dimension}
                    measuring={measuring}
                    onChoose={
                      measured.has(dimension.code)
                        ? () => {
                            measuring.choose({ code: dimension.code });
                            onClose();
                          }
                        : undefined
                    }
                  />
                ))}
            </ul>
          </section>
        ))}
      </div>
    </Dialog>
  );
}
