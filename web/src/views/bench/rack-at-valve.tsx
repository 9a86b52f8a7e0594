import { useQuery } from '@tanstack/react-query';
import type { Rack } from '#contracts/searches.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { rackPieceOf } from '../../drawings/rack-facts.ts';
import { RackWellSign } from '../../drawings/rack-well-sign.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { racksQuery } from './tally-queries.ts';
import './tally.css';

type Place = Rack['places'][number];

interface AtValveProps {
  readonly openingId: string;
  readonly rack: Rack;
  readonly place: Place;
}

function OneAtValve({ openingId, rack, place }: AtValveProps) {
  const { rack: words } = useWords().tally;
  const may = useMay('bench');
  const writing = useWrite();
  const wrong = place.from !== place.code;
  const where = words.where(place.tray?.name ?? null);
  return (
    <li>
      <RackWellSign piece={rackPieceOf(rack.name)} filled={place.filled} wrong={wrong} />
      <span>
        <b>{rack.name}</b>{' '}
        <span className={wrong ? 'hot' : 'note'}>
          {place.filled === null
            ? words.hidden
            : wrong
              ? words.holds(place.fromName)
              : place.filled
                ? words.lies(where)
                : words.isOn}
        </span>
      </span>
      {place.filled === true && !rack.oneTime ? (
        <Button
          big
          disabled={!may || writing.busy}
          onClick={() =>
            writing.write({
              path: `/openings/${openingId}/pieces/fitted`,
              body: { pieces: [{ pieceId: rack.pieceId, count: 1, places: [place.code] }] },
            })
          }
        >
          {words.putOn(rack.name)}
        </Button>
      ) : null}
      <Refusal error={writing.error} />
    </li>
  );
}

/** What is kept in order by valve, at the one that is worked at: its own bucket and shim go back there, no others. */
export function RackAtValve({
  opening,
  valve,
}: {
  readonly opening: { id: string; jobId: string };
  readonly valve: string;
}) {
  const { rack: words } = useWords().tally;
  const racks = useQuery(racksQuery(opening)).data?.items ?? [];
  const here = racks.flatMap((rack) =>
    rack.places.flatMap((place) => (place.code === valve && place.side !== '' ? [{ rack, place }] : [])),
  );
  if (here.length === 0) return null;
  return (
    <section className="rack-at-valve" aria-label={words.atValve}>
      <h3>{words.atValve}</h3>
      <ul>
        {here.map(({ rack, place }) => (
          <OneAtValve key={rack.pieceId} openingId={opening.id} rack={rack} place={place} />
        ))}
      </ul>
    </section>
  );
}
