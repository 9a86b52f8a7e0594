import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { Span, useNow } from '../../app/now.tsx';
import { useDrawnSize } from '../../app/use-media.ts';
import { depthInWords } from '../../drawings/section/section.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { valueWithGuard } from '../engine/measured-words.ts';

type ListProps = {
  readonly id: string;
  readonly title: string;
  readonly count: number;
  readonly none: string;
  readonly children: ReactNode;
};

function FloorList({ id, title, count, none, children }: ListProps) {
  return (
    <section id={id} aria-labelledby={`${id}-title`} tabIndex={-1}>
      <h2 id={`${id}-title`}>
        {title} <span className="num">{count}</span>
      </h2>
      {count === 0 ? <p className="note list-none">{none}</p> : <ul>{children}</ul>}
    </section>
  );
}

type LineProps = {
  readonly engine: EngineStanding;
  /** Under the engine's name: where, which part, which dimension. */
  readonly what: ReactNode;
  readonly figure: ReactNode;
  readonly note?: ReactNode;
  readonly hot?: boolean;
};

function Line({ engine, what, figure, note, hot = false }: LineProps) {
  const size = useDrawnSize(48, 52);
  return (
    <li className="floor-line">
      <EngineSection family={engine.family} opening={engine.opening} size={size} decorative />
      <div className="floor-line-words">
        <div>
          <Link to="/engines/$engineId" params={{ engineId: engine.id }} className="stand-link">
            <b>{engine.family.name}</b> <span className="num nowrap">{engine.serial}</span>
          </Link>
          <b className={hot ? 'figure hot' : 'figure'}>{figure}</b>
        </div>
        <div>
          <p>{what}</p>
          {note === undefined ? null : <p className={hot ? 'figure hot' : 'figure'}>{note}</p>}
        </div>
      </div>
    </li>
  );
}

const where = ({ holder }: EngineStanding): string => holder?.name ?? '';

function OpenLine({ engine, floor }: { readonly engine: EngineStanding; readonly floor: Floor }) {
  const words = useWords();
  const format = useFormat();
  const now = useNow();
  const { opening } = engine;
  if (opening === null) return null;
  const limit = floor.shop.openLimitMinutes * 60_000;
  const long = now - Date.parse(opening.openSince) > limit;
  const limitInWords = format.span(new Date(0).toISOString(), limit).replace(/ 0 h$| 00$/, '');
  const note = opening.covered ? (
    long ? (
      words.floor.overLimit(limitInWords)
    ) : undefined
  ) : (
    <>
      {words.floor.uncovered} <Span from={opening.coveredOrNotSince} />
    </>
  );
  return (
    <Line
      engine={engine}
      what={[depthInWords(opening.depth, opening.covered), where(engine)].filter((part) => part !== '').join(' · ')}
      figure={<Span from={opening.openSince} />}
      note={note}
      hot={!opening.covered}
    />
  );
}

function PartsLine({
  wait,
  engine,
  today,
}: {
  readonly wait: Floor['waitingForParts'][number];
  readonly engine: EngineStanding;
  readonly today: string;
}) {
  const words = useWords().floor;
  const format = useFormat();
  const late = wait.dueOn !== null && wait.dueOn < today;
  return (
    <Line
      engine={engine}
      what={[
        [wait.part.name, wait.rule].filter((text) => text !== '').join(' '),
        words.shortOf(wait.short, wait.wanted),
        ...wait.instead.map(words.instead),
      ].join(', ')}
      figure={wait.dueOn === null ? words.noDate : format.day(wait.dueOn)}
      note={wait.dueOn === null ? words.asked(format.since(wait.since)) : late ? words.late : words.promised}
      hot={wait.dueOn === null || late}
    />
  );
}

function PastLine({
  finding,
  engine,
}: {
  readonly finding: Floor['pastOrUndecided'][number];
  readonly engine: EngineStanding;
}) {
  const words = useWords();
  const format = useFormat();
  const { value, guard, limit, pastBy, obligation } = finding;
  const limitWords = limit === null ? '' : words.floor.limit(format.decimal(limit.value.value));
  const found = valueWithGuard(value, guard.value, { format, words: words.engine });
  const settled = obligation?.settled ? words.floor.settled : obligation?.decided ? words.floor.decided : '';
  const verdict =
    finding.verdict === 'undecided'
      ? words.floor.undecided
      : pastBy === null
        ? words.floor.isPast
        : words.floor.pastBy(format.decimal(pastBy.value));
  return (
    <Line
      engine={engine}
      what={[finding.name, value.type === 'felt' ? words.floor.anyPlay : limitWords, settled]
        .filter((part) => part !== '')
        .join(', ')}
      figure={verdict}
      note={found}
      hot={settled === ''}
    />
  );
}

/** What nobody has decided on yet comes first; the rest stays as it came. */
const toDecideFirst = (findings: Floor['pastOrUndecided']): Floor['pastOrUndecided'] => {
  const order = ({ obligation }: Floor['pastOrUndecided'][number]): number =>
    obligation?.settled ? 2 : obligation?.decided ? 1 : 0;
  return [...findings].sort((a, b) => order(a) - order(b));
};

/** Three questions: what stands open, what lacks parts, what is past a limit or can't be told. */
export function Lists({ floor }: { readonly floor: Floor }) {
  const words = useWords().floor;
  const byId = new Map(floor.engines.map((engine) => [engine.id, engine]));
  const of = <Item extends { readonly engineId: string }>(
    items: readonly Item[],
    draw: (item: Item, engine: EngineStanding) => ReactNode,
  ) =>
    items.map((item) => {
      const engine = byId.get(item.engineId);
      return engine === undefined ? null : draw(item, engine);
    });
  return (
    <aside className="lists raised" aria-label={words.lists}>
      <FloorList id="open" title={words.openNow} count={floor.openNow.length} none={words.nothingOpen}>
        {of(floor.openNow, (_, engine) => (
          <OpenLine key={engine.id} engine={engine} floor={floor} />
        ))}
      </FloorList>
      <FloorList
        id="parts"
        title={words.waitingForParts}
        count={floor.waitingForParts.length}
        none={words.noPartsMissing}
      >
        {of(floor.waitingForParts, (wait, engine) => (
          <PartsLine key={wait.demandLineId} wait={wait} engine={engine} today={floor.today} />
        ))}
      </FloorList>
      <FloorList id="past" title={words.past} count={floor.pastOrUndecided.length} none={words.nothingPast}>
        {of(toDecideFirst(floor.pastOrUndecided), (finding, engine) => (
          <PastLine key={finding.findingId} finding={finding} engine={engine} />
        ))}
      </FloorList>
    </aside>
  );
}
