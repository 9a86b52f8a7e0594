import { type KeyboardEvent, useState } from 'react';
import type { BenchDimension } from '#contracts/bench.ts';
import { rounds } from '#domain/obligations/disposition.ts';
import { useMedia } from '../../app/use-media.ts';
import { VerdictSign } from '../../drawings/verdict-sign.tsx';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { symbolOf } from '../../words/quantity-text.ts';
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

/** What nobody judges: a figure that the sheet states, or one that others are only worked out with. */
const isJudged = ({ stated, limits }: BenchDimension): boolean =>
  stated === null &&
  [...Object.values(limits.standard), ...Object.values(limits.service)].some((side) => side !== null);

/** The verdict of a dimension, or what stands in its place where there is none to come. */
function Standing({ dimension, measuring }: Pick<RowProps, 'dimension' | 'measuring'>) {
  const { measure } = useWords();
  const format = useFormat();
  const finding = findingIn(dimension, measuring.round);
  const { stated } = dimension;
  if (stated !== null)
    return <span className="row-verdict num">{`${format.decimal(stated.value)} ${symbolOf(stated.unit)}`}</span>;
  if (finding === undefined && !isJudged(dimension))
    return <span className="row-verdict note">{measure.choose.unjudged}</span>;
  return (
    <span
      className={
        finding?.verdict === 'undecided' || finding?.verdict === 'past the limit' ? 'row-verdict hot' : 'row-verdict'
      }
    >
      <VerdictSign verdict={finding?.verdict ?? 'not measured'} width={36} />
      {finding?.verdict ?? measure.choose.none}
    </span>
  );
}

function Row({ dimension, measuring, onChoose }: RowProps) {
  const { measure } = useWords();
  const of = dimension.positions.length;
  const done = of - measuring.openIn(dimension).length;
  const current = measuring.dimension.code === dimension.code;
  const facts = (
    <>
      <span className="row-name">{dimension.name}</span>
      <span className="note num">
        {onChoose !== undefined
          ? measure.choose.done(done, of)
          : dimension.stated === null
            ? measure.choose.derived
            : measure.choose.stated}
      </span>
      <Standing dimension={dimension} measuring={measuring} />
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

/** Arrow keys go through the rows that can be taken up. */
function goThroughRows(event: KeyboardEvent<HTMLElement>): void {
  const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  const from = event.target;
  if (by === 0 || (from instanceof HTMLInputElement && from.type === 'radio')) return;
  const rows = [...event.currentTarget.querySelectorAll<HTMLElement>('button.dimension-row')];
  const at = from instanceof HTMLElement ? rows.indexOf(from) : -1;
  rows[at < 0 && by < 0 ? rows.length - 1 : at + by]?.focus();
  event.preventDefault();
}

function Dimensions({ measuring, onClose }: Pick<DimensionListProps, 'measuring' | 'onClose'>) {
  const { measure } = useWords();
  const [sought, setSought] = useState('');
  const keyboard = useMedia('(pointer: fine)');
  const { bench, round } = measuring;
  const measured = new Set(measuredOf(bench).map(({ code }) => code));
  const found = bench.dimensions.filter(({ name }) => name.toLowerCase().includes(sought.trim().toLowerCase()));
  const places = bench.places.filter(({ code }) => found.some(({ placeCode }) => placeCode === code));
  const rowsOf = (place: string) => found.filter(({ placeCode }) => placeCode === place);
  const take = (code: string) => {
    measuring.choose({ code });
    onClose();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the rows within are buttons; arrow keys only move between them
    <div className="dimension-list" onKeyDown={goThroughRows}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const first = places.flatMap(({ code }) => rowsOf(code)).find(({ code }) => measured.has(code));
          if (sought.trim() !== '' && first !== undefined) take(first.code);
        }}
      >
        <Field label={measure.choose.find} error={found.length === 0 ? measure.choose.notFound : undefined}>
          {(input) => (
            <input
              {...input}
              // biome-ignore lint/a11y/noAutofocus: opened by a key, it is to be typed into; a finger wants no keyboard
              autoFocus={keyboard}
              autoComplete="off"
              maxLength={60}
              value={sought}
              onChange={({ target }) => setSought(target.value)}
            />
          )}
        </Field>
      </form>
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
            {rowsOf(place.code).map((dimension) => (
              <Row
                key={dimension.code}
                dimension={dimension}
                measuring={measuring}
                onChoose={measured.has(dimension.code) ? () => take(dimension.code) : undefined}
              />
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

/** Every dimension of the sheet by place: what is read, what is missing, and what it amounts to. */
export function DimensionList({ measuring, open, onClose, onFile }: DimensionListProps) {
  const { measure } = useWords();
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
      <Dimensions measuring={measuring} onClose={onClose} />
    </Dialog>
  );
}
