import { Link } from '@tanstack/react-router';
import { type CSSProperties, useId } from 'react';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { useWords } from '../../words/words.tsx';
import { EngineCard } from './engine-card.tsx';
import { bayNumber, type Standing } from './walls.ts';

type BayFacts = Floor['bays'][number];

type Props = {
  readonly bay: BayFacts;
  readonly standing: Standing;
  readonly engines: readonly EngineStanding[];
  readonly floor: Floor;
};

function BayHead({ bay, id, taken }: { readonly bay: BayFacts; readonly id: string; readonly taken: number }) {
  const { floor } = useWords();
  const number = bayNumber(bay.name);
  const kind = floor.bayKind[bay.kind];
  const saysKind = bay.name.toLowerCase().includes(kind.toLowerCase());
  return (
    <header className="bay-head">
      {number === null ? null : (
        <span className="bay-number num" aria-hidden="true">
          {number}
        </span>
      )}
      <h3 id={id}>
        {number === null ? <b>{bay.name}</b> : <span className="visually-hidden">{bay.name}, </span>}
        {saysKind ? null : <span className="note">{kind}</span>}
      </h3>
      {bay.capacity > 1 ? <span className="note num bay-room">{floor.taken(taken, bay.capacity)}</span> : null}
    </header>
  );
}

/** Who comes here next by plan, so that an empty bay says more than that it's empty. */
function EmptyBay({ bay, floor }: { readonly bay: BayFacts; readonly floor: Floor }) {
  const words = useWords();
  const next = floor.engines.filter(({ assignedBay, place }) => assignedBay?.id === bay.id && place?.id !== bay.id);
  return (
    <p className="bay-empty">
      {words.floor.emptyBay}{' '}
      {next.length === 0 ? null : (
        <>
          {words.floor.next}{' '}
          {next.map(({ id, family, serial }) => (
            <Link key={id} to="/engines/$engineId" params={{ engineId: id }}>
              {family.name} <span className="num nowrap">{serial}</span>
            </Link>
          ))}
        </>
      )}
    </p>
  );
}

/** A place between its walls, with what stands in it. */
export function Bay({ bay, standing, engines, floor }: Props) {
  const id = useId();
  const { column, row, width, height, doorAbove } = standing;
  const place = { '--column': column, '--row': row, '--width': width, '--height': height } as CSSProperties;
  const rack = bay.kind === 'rack' || bay.capacity > 4;
  const kinds = ['bay', ...(rack ? ['rack', 'sunken'] : []), ...(doorAbove ? ['door'] : [])].join(' ');
  return (
    <section className={kinds} style={place} aria-labelledby={id}>
      <BayHead bay={bay} id={id} taken={engines.length} />
      <div className={rack ? 'shelf' : engines.length > 1 ? 'shelf narrow' : 'room'}>
        {engines.length === 0 ? <EmptyBay bay={bay} floor={floor} /> : null}
        {engines.map((engine) => (
          <EngineCard key={engine.id} engine={engine} floor={floor} small={rack || engines.length > 1} />
        ))}
      </div>
    </section>
  );
}
