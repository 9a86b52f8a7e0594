import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { Tray, TrayInShop } from '#contracts/custody.ts';
import type { Rack } from '#contracts/searches.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { CountLines } from './counting.tsx';
import { sumOf, useCounts } from './counts.ts';
import { HandsFrame } from './hands-frame.tsx';
import { floorQuery, jobTraysQuery, traysInShopQuery } from './hands-queries.ts';
import { RackPane } from './rack-pane.tsx';
import { liesIn } from './rack-wells.ts';
import { racksQuery } from './tally-queries.ts';
import { TrayChoice, WITH_ENGINE } from './tray-choice.tsx';
import './procedure.css';
import './tally.css';

interface MovePiecesProps {
  readonly tray: Tray;
  readonly jobId: string;
  readonly openingId: string;
  readonly trays: readonly Tray[];
  /** Lines of which any lies in a rack: they are moved there, by their places. */
  readonly inPlaces: ReadonlySet<string>;
}

/** So many of some lines into another tray or bag, or beside the engine: one recorded act. */
function MovePieces({ tray, jobId, openingId, trays, inPlaces }: MovePiecesProps) {
  const { tray: words } = useWords().tally;
  const counts = useCounts(`from tray ${tray.id}`);
  const [to, setTo] = useState<string | null>(null);
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const lines = tray.pieces.flatMap(({ pieceId, name, count }) =>
    inPlaces.has(pieceId) ? [] : [{ id: pieceId, name, count: count ?? 0 }],
  );
  const sum = sumOf(counts, lines);
  const ready = sum > 0 && to !== null && !writing.busy;
  const go = () =>
    writing.write(
      {
        path: `/openings/${openingId}/pieces/moved`,
        body: {
          pieces: lines.flatMap(({ id }) =>
            counts.of(id) > 0 ? [{ pieceId: id, count: counts.of(id), fromTrayId: tray.id }] : [],
          ),
          trayId: to === WITH_ENGINE ? null : to,
          ...(reason.trim() === '' ? {} : { reason: reason.trim() }),
        },
      },
      () => {
        counts.clear();
        setReason('');
      },
    );
  if (lines.length === 0) return null;
  return (
    <section className="count-off" aria-label={words.move}>
      <h2>{words.move}</h2>
      <CountLines
        label={words.move}
        counts={counts}
        disabled={writing.busy}
        lines={lines.map(({ id, name, count }) => ({ id, name, all: count, most: count, note: '' }))}
      />
      <TrayChoice jobId={jobId} trays={trays.filter(({ id }) => id !== tray.id)} chosen={to} onChoose={setTo} />
      <Field label={words.reason} big>
        {(input) => (
          <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
        )}
      </Field>
      <Refusal error={writing.error} />
      <Button big kind="main" disabled={!ready} onClick={go}>
        {words.go(sum)}
      </Button>
    </section>
  );
}

interface RacksProps {
  readonly racks: readonly Rack[];
  readonly trayId: string;
  readonly jobId: string;
  readonly openingId: string;
}

/** The sets in this tray that are kept in order. */
function Racks({ racks, trayId, jobId, openingId }: RacksProps) {
  const { rack: words } = useWords().tally;
  const here = racks.filter(({ lying }) => lying.some((place) => place.tray?.id === trayId));
  if (here.length === 0) return null;
  return (
    <section className="racks" aria-labelledby="racks">
      <h2 id="racks">{words.title}</h2>
      <p className="note">{words.why}</p>
      {here.map((rack) => (
        <RackPane key={rack.pieceId} rack={rack} jobId={jobId} openingId={openingId} within={trayId} />
      ))}
    </section>
  );
}

function TrayBody({ listed }: { readonly listed: TrayInShop }) {
  const { tray: words } = useWords().tally;
  const may = useMay('bench');
  const trays = useQuery(jobTraysQuery(listed.job.id)).data?.items ?? [];
  const floor = useQuery(floorQuery).data;
  const tray = trays.find(({ id }) => id === listed.id);
  const opening = floor?.engines.find(({ job }) => job.id === listed.job.id)?.opening ?? null;
  const of = opening === null ? null : { id: opening.id, jobId: listed.job.id };
  const racks = useQuery(racksQuery(of)).data?.items ?? [];
  if (tray === undefined) return <Skeleton label={words.title(listed.label)} lines={6} />;
  const countable = tray.pieces.length > 0 && tray.pieces.every(({ count }) => count !== null);
  const { held } = listed;
  const inPlaces = new Set(
    racks.flatMap(({ pieceId, places }) => (places.some((place) => liesIn(place, tray.id)) ? [pieceId] : [])),
  );
  return (
    <main className="check">
      <h1>
        {words.title(listed.label)} <span className="note">{listed.name}</span>
      </h1>
      <p>
        <Link to="/engines/$engineId" params={{ engineId: listed.engine.id }}>
          {listed.engine.serial}
        </Link>
        {', '}
        {held === null ? words.nobody : words.heldBy(held.name, held.place?.name ?? null)}
      </p>
      {tray.pieces.length === 0 ? <p className="note">{words.empty}</p> : null}
      {opening === null ? null : <Racks racks={racks} trayId={tray.id} jobId={listed.job.id} openingId={opening.id} />}
      {countable && may && opening !== null ? (
        <MovePieces tray={tray} jobId={listed.job.id} openingId={opening.id} trays={trays} inPlaces={inPlaces} />
      ) : (
        <ul>
          {tray.pieces.map(({ pieceId, name, count }) => (
            <li key={pieceId}>{count === null ? name : `${count} × ${name}`}</li>
          ))}
        </ul>
      )}
    </main>
  );
}

/** One tray or bag by its own address, which its label carries: what lies in it, who has it, and moving pieces on. */
export function TrayView() {
  const { trayId } = useParams({ from: '/trays/$trayId' });
  const { tally } = useWords();
  const { data, error, refetch } = useQuery(traysInShopQuery);
  const listed = data?.items.find(({ id }) => id === trayId);
  return (
    <HandsFrame title={tally.tray.title(listed?.label ?? '')} head={<b>{tally.tray.title(listed?.label ?? '')}</b>}>
      {data === undefined ? (
        error === null ? (
          <Skeleton label={tally.reading} lines={6} />
        ) : (
          <NotRead error={error} again={() => void refetch()} right="look" />
        )
      ) : listed === undefined ? (
        <Empty title={tally.tray.notHere}>{tally.tray.notHereWhy}</Empty>
      ) : (
        <TrayBody listed={listed} />
      )}
    </HandsFrame>
  );
}
