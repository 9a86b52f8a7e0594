import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { ClosingCheck } from '#contracts/searches.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { HandsPage, ToBench } from './hands-page.tsx';
import { checkQuery } from './tally-queries.ts';
import './tally.css';

type Line = ClosingCheck['lines'][number];

/** The trays in which those of a line lie that are still loose, and of a rack in which places. */
function Lying({ lying }: Pick<Line, 'lying'>) {
  const { tally } = useWords();
  if (lying.length === 0) return null;
  const parts = lying.map(({ tray, count, places }) =>
    tally.check.lies(tally.rack.where(tray?.name ?? null), count, places?.join(', ') ?? ''),
  );
  return <span className="note">{parts.join('; ')}</span>;
}

function LineWords({ line }: { readonly line: Line }) {
  const { check: words } = useWords().tally;
  const format = useFormat();
  return (
    <span className="check-words">
      <b>{line.name}</b>
      <span className="note">
        {line.words ?? words.blind}
        {line.doneBy.length === 0 ? '' : ` · ${words.by(line.doneBy.map(({ name }) => name).join(', '))}`}
      </span>
      <Lying lying={line.lying} />
      {line.ticked === null ? null : (
        <span className="note">{words.ticked(line.ticked.by.name, format.since(line.ticked.at))}</span>
      )}
    </span>
  );
}

/** The line at hand: tick it, or why it can't be ticked here. */
function NextLine({ line, openingId }: { readonly line: Line; readonly openingId: string }) {
  const { check: words } = useWords().tally;
  const { person } = useSession();
  const may = useMay('bench');
  const writing = useWrite();
  const own = line.doneBy.some(({ id }) => id === person.id);
  return (
    <li className="check-line next" aria-current="step">
      <i aria-hidden="true" />
      <LineWords line={line} />
      {line.ready ? (
        own ? (
          <b className="hot">{words.own}</b>
        ) : (
          <Button
            big
            kind="main"
            disabled={!may || writing.busy}
            onClick={() => writing.write({ path: `/openings/${openingId}/check`, body: { lines: [line.id] } })}
          >
            {words.tick}
          </Button>
        )
      ) : (
        <b className="hot">{words.notReady}</b>
      )}
      <Refusal error={writing.error} />
    </li>
  );
}

function OtherLine({ line }: { readonly line: Line }) {
  return (
    <li className={line.ticked === null ? 'check-line' : 'check-line done'}>
      <i aria-hidden="true" />
      <LineWords line={line} />
    </li>
  );
}

function Check({ openingId, jobId }: { readonly openingId: string; readonly jobId: string }) {
  const { tally } = useWords();
  const { data, error, refetch } = useQuery(checkQuery({ id: openingId, jobId }));
  if (data === undefined) {
    return error === null ? (
      <Skeleton label={tally.reading} lines={8} />
    ) : (
      <NotRead error={error} again={() => void refetch()} right="look" />
    );
  }
  const words = tally.check;
  const before = data.lines.findIndex(({ next }) => next);
  const ticked = before < 0 ? data.lines : data.lines.slice(0, before);
  const rest = before < 0 ? [] : data.lines.slice(before);
  return (
    <main className="check">
      <h1>{words.left(data.left, data.lines.length)}</h1>
      <p className="note">{data.lines.length === 0 ? words.none : words.why}</p>
      <ol className="check-lines">
        {rest.map((line) =>
          line.next ? (
            <NextLine key={line.id} line={line} openingId={openingId} />
          ) : (
            <OtherLine key={line.id} line={line} />
          ),
        )}
      </ol>
      <div className="hands-acts">
        <Link
          className={buttonClass(data.left === 0 ? 'main' : 'plain', true)}
          to="/bench/$jobId/assemble"
          params={{ jobId }}
          search={{ step: 'prove' } as never}
        >
          {words.close}
        </Link>
        <Link className={buttonClass('plain', true)} to="/bench/$jobId/procedure" params={{ jobId }}>
          {words.fixed}
        </Link>
      </div>
      {ticked.length === 0 ? null : (
        <details>
          <summary>{words.more(ticked.length)}</summary>
          <ol className="check-lines">
            {ticked.map((line) => (
              <OtherLine key={line.id} line={line} />
            ))}
          </ol>
        </details>
      )}
    </main>
  );
}

/** The closing check of one engine: line by line, the last removed first, by another person than who worked on it. */
export function CheckView() {
  const { jobId } = useParams({ from: '/bench/$jobId/check' });
  const { tally } = useWords();
  return (
    <HandsPage jobId={jobId} title={tally.check.title} doing={tally.check.doing}>
      {({ opening }) =>
        opening === null ? (
          <Empty title={tally.notOpen} act={<ToBench />}>
            {tally.notOpenWhy}
          </Empty>
        ) : (
          <Check openingId={opening.id} jobId={jobId} />
        )
      }
    </HandsPage>
  );
}
