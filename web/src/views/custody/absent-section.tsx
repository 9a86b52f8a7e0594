import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { TrayInShop } from '#contracts/custody.ts';
import type { Floor } from '#contracts/floor.ts';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { floorQuery, traysInShopQuery } from '../bench/hands-queries.ts';
import { type HeldByAbsent, LeadMoveDialog } from './lead-move-dialog.tsx';
import '../bench/hands.css';
import '../bench/my-bench.css';

/** What each person holds, engine by engine. */
function heldByPeople(floor: Floor, trays: readonly TrayInShop[]): HeldByAbsent[] {
  return floor.engines.flatMap((engine) => {
    const its = trays.filter(({ job, held }) => job.id === engine.job.id && held?.kind === 'person');
    const holders = [engine.holder, ...its.map(({ held }) => held)].flatMap((holder) =>
      holder?.kind === 'person' ? [{ id: holder.id, name: holder.name }] : [],
    );
    return [...new Map(holders.map((holder) => [holder.id, holder])).values()].map((holder) => ({
      holder,
      engine,
      itself: engine.holder?.kind === 'person' && engine.holder.id === holder.id,
      trays: its.filter(({ held }) => held?.id === holder.id),
    }));
  });
}

/** For a lead at the end of a shift: what stays with somebody who has gone is moved, with a reason and a count. */
export function AbsentSection() {
  const { absent: words } = useWords().custody;
  const lead = useMay('lead');
  const floor = useQuery(floorQuery).data;
  const trays = useQuery(traysInShopQuery).data?.items;
  const [moving, setMoving] = useState<HeldByAbsent | null>(null);
  if (!lead || floor === undefined || trays === undefined) return null;
  const held = heldByPeople(floor, trays);
  if (held.length === 0) return null;
  return (
    <section aria-label={words.section} className="no-print">
      <h2>{words.section}</h2>
      <p className="note">{words.why}</p>
      <ul className="bench-list">
        {held.map((each) => {
          const { engine, holder, itself } = each;
          const name = `${engine.family.name} ${engine.serial}`;
          return (
            <li key={`${engine.id} ${holder.id}`}>
              <div>
                <b>
                  {engine.family.name} <span className="num nowrap">{engine.serial}</span>
                </b>
                <p className="note">{words.holds(holder.name, itself, each.trays.length)}</p>
              </div>
              <Button big aria-label={words.moveOf(name, holder.name)} onClick={() => setMoving(each)}>
                {words.move}
              </Button>
            </li>
          );
        })}
      </ul>
      {moving === null ? null : <LeadMoveDialog held={moving} floor={floor} onClose={() => setMoving(null)} />}
    </section>
  );
}
