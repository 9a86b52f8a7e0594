import { useInfiniteQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { CountListed } from '#contracts/counts.ts';
import { MorePages } from '../../../kit/more-pages.tsx';
import { Skeleton } from '../../../kit/skeleton.tsx';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { endedSheetsQuery, openSheetsQuery } from './count-queries.ts';

/** Sheets on which somebody has still to do something; nothing where there are none. */
export function OpenSheets() {
  const { sheets: words } = useWords().counts;
  const sheets = useInfiniteQuery(openSheetsQuery);
  const open = sheets.data?.pages.flatMap(({ items }) => items) ?? [];
  if (open.length === 0) return null;
  return (
    <section>
      <h2>{words.open}</h2>
      <SheetList sheets={open} />
      <MorePages of={sheets}>{words.more}</MorePages>
    </section>
  );
}

/** What is settled or was given up, folded away, and read only once it is asked for. */
export function EndedSheets() {
  const { sheets: words } = useWords().counts;
  const [open, setOpen] = useState(false);
  return (
    <details className="ended-sheets" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{words.ended}</summary>
      {open ? <Ended /> : null}
    </details>
  );
}

function Ended() {
  const { sheets: words } = useWords().counts;
  const { reading } = useWords().counts;
  const sheets = useInfiniteQuery(endedSheetsQuery);
  const ended = sheets.data?.pages.flatMap(({ items }) => items);
  if (ended === undefined) return <Skeleton label={reading} lines={4} />;
  if (ended.length === 0) return <p className="nothing">{words.none}</p>;
  return (
    <>
      <SheetList sheets={ended} />
      <MorePages of={sheets}>{words.more}</MorePages>
    </>
  );
}

const SheetList = ({ sheets }: { readonly sheets: readonly CountListed[] }) => (
  <ul className="order-list">
    {sheets.map((sheet) => (
      <Listed key={sheet.id} sheet={sheet} />
    ))}
  </ul>
);

function Listed({ sheet }: { readonly sheet: CountListed }) {
  const { sheets: words } = useWords().counts;
  const format = useFormat();
  const ended = sheet.state === 'done' || sheet.state === 'given up';
  return (
    <li>
      <Link to="/stores/count/$sheetId" params={{ sheetId: sheet.id }}>
        <b className="num">{words.number(sheet.number)}</b> {sheet.bins.join(', ')}
      </Link>
      <span className="note">
        {sheet.counter}, {format.since(sheet.openedAt)}
      </span>
      <span className={ended ? '' : 'hot'}>
        {words.state[sheet.state]}
        {sheet.settled === 0 ? '' : `, ${words.lines(sheet.lines, sheet.settled)}, ${words.right(sheet.right)}`}
      </span>
    </li>
  );
}
