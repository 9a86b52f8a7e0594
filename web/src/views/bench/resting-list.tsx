import { Fragment, useState } from 'react';
import type { Floor } from '#contracts/floor.ts';
import { Button } from '../../kit/button.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { DepthWords } from '../floor/engine-card.tsx';
import { MoveDialog } from './move-dialog.tsx';
import type { Resting } from './my-bench.ts';

/** What rests in the bays, this terminal's first, and can be taken. */
export function RestingList({ resting, floor }: { readonly resting: readonly Resting[]; readonly floor: Floor }) {
  const words = useWords().myBench;
  const { done: scan } = useWords().scan;
  const [taking, setTaking] = useState<Resting | null>(null);
  useScan((scanned) => {
    if (scanned.kind !== 'engine' && scanned.kind !== 'tray') return undefined;
    const rests = resting.find(({ engine, itself, trays }) =>
      scanned.kind === 'engine' ? itself && engine.id === scanned.id : trays.some(({ id }) => id === scanned.id),
    );
    if (rests === undefined) return undefined;
    setTaking(rests);
    return { did: scan.takeIt };
  });
  const bays = [...new Map(resting.map(({ bay, here }) => [bay.id, { ...bay, here }])).values()];
  return (
    <section aria-label={words.resting}>
      <h2>{words.resting}</h2>
      {resting.length === 0 ? <p className="note">{words.nothingRests}</p> : null}
      {bays.map((bay) => (
        <Fragment key={bay.id}>
          <h3 className="bench-bay">{bay.here ? words.restingHere(bay.name) : bay.name}</h3>
          <ul className="bench-list">
            {resting
              .filter((each) => each.bay.id === bay.id)
              .map((each) => (
                <li key={each.engine.id} className="rests">
                  {each.itself ? (
                    <EngineSection family={each.engine.family} opening={each.engine.opening} size={64} decorative />
                  ) : (
                    <span className="rests-tray" />
                  )}
                  <div>
                    <b>
                      {each.engine.family.name} <span className="num nowrap">{each.engine.serial}</span>
                    </b>
                    <p className="note">
                      {each.itself ? (
                        <>
                          <DepthWords opening={each.engine.opening} />, {words.withTrays(each.trays.length)}
                        </>
                      ) : (
                        words.onlyTraysRest(each.trays.map(({ label }) => label).join(', '))
                      )}
                    </p>
                  </div>
                  <Button
                    big
                    aria-label={`${words.take}: ${each.engine.family.name} ${each.engine.serial}`}
                    onClick={() => setTaking(each)}
                  >
                    {words.take}
                  </Button>
                </li>
              ))}
          </ul>
        </Fragment>
      ))}
      {taking === null ? null : (
        <MoveDialog
          move={{
            kind: 'take',
            engine: taking.engine,
            itself: taking.itself,
            trays: taking.trays,
            bayId: taking.bay.id,
          }}
          floor={floor}
          onClose={() => setTaking(null)}
        />
      )}
    </section>
  );
}
