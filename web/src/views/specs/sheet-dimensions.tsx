import { Fragment, useState } from 'react';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { PositionPicture } from '../../drawings/positions/position-picture.tsx';
import { Button } from '../../kit/button.tsx';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { DimensionDialog } from './dimension-dialog.tsx';
import type { PrintedDimension, PrintedFigure, PrintedLimits } from './printed.ts';
import type { Draft } from './use-draft.ts';

interface Props {
  readonly document: SpecSheetDocument;
  /** The draft, where it may be changed. */
  readonly editing: Draft | undefined;
}

/** Every dimension with its limits by size class, and where each figure stands in its source. */
export function SheetDimensions({ document, editing }: Props) {
  const { specs: words } = useWords();
  const [open, setOpen] = useState<string | null>(null);
  const { dimensions, places } = document;
  const inPlace = (code: string) => dimensions.filter((dimension) => dimension.place === code);
  const groups = [...new Set([...places.map(({ code }) => code), ...dimensions.map(({ place }) => place)])];
  return (
    <section className="dimensions">
      <header>
        <h2>{words.dimensionsTitle}</h2>
        {editing === undefined ? null : <Button onClick={() => setOpen('')}>{words.add}</Button>}
      </header>
      {groups
        .filter((code) => inPlace(code).length > 0)
        .map((code) => (
          <section key={code} className="at-place">
            <h3>{places.find((place) => place.code === code)?.name ?? code}</h3>
            {inPlace(code).map((dimension) => (
              <Dimension
                key={dimension.code}
                dimension={dimension}
                onEdit={editing === undefined ? undefined : () => setOpen(dimension.code)}
              />
            ))}
          </section>
        ))}
      {open === null || editing === undefined ? null : (
        <DimensionDialog key={open} draft={editing} code={open} onClose={() => setOpen(null)} />
      )}
    </section>
  );
}

interface DimensionProps {
  readonly dimension: PrintedDimension;
  readonly onEdit: (() => void) | undefined;
}

function Dimension({ dimension, onEdit }: DimensionProps) {
  const { specs: words } = useWords();
  return (
    <article className="dimension" id={dimension.code}>
      <div className="what">
        <h4>{dimension.name}</h4>
        <p className="note">
          <span className="num">{dimension.code}</span> · <HowFound dimension={dimension} />
        </p>
        {dimension.caution === '' ? null : <p className="caution">{dimension.caution}</p>}
        <p className="note">{[dimension.source, dimension.page].filter(Boolean).join(', ')}</p>
      </div>
      <div className="figures">
        {dimension.limits.length === 0 ? <p className="note">{words.noLimit}</p> : null}
        {dimension.limits.map((limits) => (
          <LimitLine key={limits.sizeClass} limits={limits} />
        ))}
        {dimension.stated === null ? null : <p className="num">{words.stated(quantityText(dimension.stated))}</p>}
        {dimension.nominal === null || dimension.plausibleSpan === null ? null : (
          <p className="note num">
            {words.possible(quantityText(dimension.nominal), quantityText(dimension.plausibleSpan))}
          </p>
        )}
      </div>
      <Places dimension={dimension} />
      {onEdit === undefined ? null : (
        <Button aria-label={words.editOf(dimension.name)} onClick={onEdit}>
          {words.edit}
        </Button>
      )}
    </article>
  );
}

function HowFound({ dimension }: { readonly dimension: PrintedDimension }) {
  const { specs: words } = useWords();
  const { method, boreRule, readingsOf, minuend, subtrahend, numerator, denominator, scale, rule } = dimension;
  const factor = /^guard-factor-(.+)$/.exec(rule)?.[1];
  const parts = [
    words.how[method],
    ...(boreRule === null ? [] : [boreRule === 'per-level' ? words.perLevel : words.extremes]),
    ...(readingsOf === null ? [] : [words.readingsOf(readingsOf)]),
    ...(minuend === null || subtrahend === null ? [] : [words.minus(minuend, subtrahend)]),
    ...(numerator === null || denominator === null
      ? []
      : [words.over(numerator, denominator, scale === null ? '' : quantityText(scale))]),
    ...(dimension.instrumentKind === '' ? [] : [dimension.instrumentKind]),
    ...(method === 'felt' || method === 'stated'
      ? []
      : [factor === undefined ? (words.rules[rule] ?? rule) : words.guardFactor(factor)]),
    ...(dimension.inside ? [] : [words.notInside]),
  ];
  return <>{parts.join(' · ')}</>;
}

function LimitLine({ limits }: { readonly limits: PrintedLimits }) {
  const { specs: words } = useWords();
  const { sizeClass, standard, service } = limits;
  return (
    <dl className="limits">
      {sizeClass === 'standard' ? null : (
        <div>
          <dt>{words.sizeClass}</dt>
          <dd className="num">{sizeClass}</dd>
        </div>
      )}
      {(
        [
          [words.standard, standard],
          [words.service, service],
        ] as const
      ).map(([name, { low, high }]) =>
        low === null && high === null ? null : (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="num">
              <Range low={low} high={high} />
              {[low, high].map((figure) =>
                figure === null ? null : <Where key={quantityText(figure)} figure={figure} />,
              )}
            </dd>
          </div>
        ),
      )}
    </dl>
  );
}

function Range({ low, high }: { readonly low: PrintedFigure | null; readonly high: PrintedFigure | null }) {
  const { specs: words } = useWords();
  if (low !== null && high !== null) {
    return <b>{words.fromTo(low.unit === high.unit ? low.value : quantityText(low), quantityText(high))}</b>;
  }
  if (low !== null) return <b>{words.atLeast(quantityText(low))}</b>;
  return high === null ? null : <b>{words.atMost(quantityText(high))}</b>;
}

/** Where a figure stands, when not where its dimension does. */
function Where({ figure }: { readonly figure: PrintedFigure }) {
  const text = [figure.source ?? '', figure.page ?? ''].filter(Boolean).join(', ');
  return text === '' ? null : <span className="note line">{text}</span>;
}

/** Positions in words; those of a bore as a drawing too. */
function Places({ dimension }: { readonly dimension: PrintedDimension }) {
  const { specs: words } = useWords();
  const { positions } = dimension;
  if (positions.length === 0) return null;
  const heights = [...new Map(positions.map(({ level, height }) => [level, Number(height?.value ?? Number.NaN)]))];
  const drawn =
    positions.length > 1 &&
    positions.every(
      ({ level, axis, height }) => level !== null && height?.unit === 'mm' && (axis === 'across' || axis === 'along'),
    );
  return (
    <Fragment>
      {drawn ? (
        <div className="drawn">
          <PositionPicture
            facts={{
              kind: 'bore',
              levels: heights.map(([, height]) => ({ height, across: null, along: null })),
              active: null,
            }}
          />
        </div>
      ) : null}
      <p className="note places">{words.positionsAt(positions.map(({ label, code }) => label || code).join('; '))}</p>
    </Fragment>
  );
}
