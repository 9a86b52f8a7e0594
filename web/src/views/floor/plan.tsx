import { type CSSProperties, useId } from 'react';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { useWords } from '../../words/words.tsx';
import { Bay } from './bay.tsx';
import { EngineCard } from './engine-card.tsx';
import { Notes } from './notes.tsx';
import { inWalkingOrder, wallsOf } from './walls.ts';

type EdgeProps = {
  readonly title: string;
  readonly why?: string;
  readonly empty?: string;
  readonly engines: readonly EngineStanding[];
  readonly floor: Floor;
  readonly alarm?: boolean;
};

/** Engines of open jobs that don't stand in a bay. */
function Edge({ title, why, empty, engines, floor, alarm = false }: EdgeProps) {
  const id = useId();
  return (
    <section className={alarm ? 'edge alarm' : 'edge'} aria-labelledby={id} role={alarm ? 'alert' : undefined}>
      <h3 id={id}>{title}</h3>
      {why === undefined ? null : <p>{why}</p>}
      {engines.length === 0 && empty !== undefined ? <p className="bay-empty">{empty}</p> : null}
      <div className="shelf">
        {engines.map((engine) => (
          <EngineCard key={engine.id} engine={engine} floor={floor} small />
        ))}
      </div>
    </section>
  );
}

/** The shop as it lies: its bays between their walls, and what is beyond them. */
export function Plan({ floor }: { readonly floor: Floor }) {
  const words = useWords().floor;
  const walls = wallsOf(floor.bays);
  const byId = new Map(floor.engines.map((engine) => [engine.id, engine]));
  const standing = (ids: readonly string[]): EngineStanding[] => ids.flatMap((id) => byId.get(id) ?? []);
  const placed = new Set([
    ...floor.bays.flatMap(({ engineIds }) => engineIds),
    ...floor.outside,
    ...floor.heldByNobody,
  ]);
  const elsewhere = floor.engines.filter(({ id }) => !placed.has(id));
  return (
    <>
      {floor.heldByNobody.length === 0 ? null : (
        <Edge
          title={words.heldByNobody}
          why={words.heldByNobodyWhy}
          engines={standing(floor.heldByNobody)}
          floor={floor}
          alarm
        />
      )}
      <div
        className="walls"
        data-columns={Math.min(walls.columns, 8)}
        style={{ '--columns': walls.columns } as CSSProperties}
      >
        {inWalkingOrder(floor.bays).map((bay) => {
          const place = walls.of.get(bay.id);
          return place === undefined ? null : (
            <Bay key={bay.id} bay={bay} standing={place} engines={standing(bay.engineIds)} floor={floor} />
          );
        })}
      </div>
      <div className="edges">
        <Edge title={words.outside} empty={words.nobodyOutside} engines={standing(floor.outside)} floor={floor} />
        {elsewhere.length === 0 ? null : <Edge title={words.elsewhere} engines={elsewhere} floor={floor} />}
        <Notes floor={floor} />
      </div>
    </>
  );
}
