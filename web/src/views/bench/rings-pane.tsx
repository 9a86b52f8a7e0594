import { useId, useState } from 'react';
import type { AssemblyPage, RingStanding } from '#contracts/assembly.ts';
import type { RingFault } from '#domain/build/ring-clock.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { useMedia, useWall } from '../../app/use-media.ts';
import { useWrite } from '../../app/write.ts';
import { RingClock } from '../../drawings/ring-clock.tsx';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { aimedGaps, type Facing, facingOf, faultsOf, faultWords, type Gaps, gapsOf, inTurn } from './ring-placing.ts';

const turns = [-10, -1, 1, 10] as const;

/** The mark in the drawing's ball: a short code as it is, else the ring's place from the crown. */
const markOf = (page: AssemblyPage, { ring }: RingStanding): string =>
  ring.length <= 2 ? ring : String(page.rings.findIndex((one) => one.ring === ring) + 1);

const isWrong = ({ kind }: RingFault): boolean => kind !== 'mark-not-seen';
const isOfGap = (fault: RingFault): boolean => isWrong(fault) && fault.kind !== 'mark-wrong-way';

interface RingRowProps {
  readonly page: AssemblyPage;
  readonly ring: RingStanding;
  readonly angle: number;
  readonly faults: readonly RingFault[];
  readonly facing: 'crown' | 'skirt' | undefined;
  readonly onTurn: (angle: number) => void;
  readonly onFace: (faces: 'crown' | 'skirt') => void;
}

function RingRow({ page, ring, angle, faults, facing, onTurn, onFace }: RingRowProps) {
  const all = useWords();
  const words = all.assemble.rings;
  const id = useId();
  const wrong = faults.some(isWrong);
  const turn = (by: number) => (
    <button
      key={by}
      type="button"
      className="key turn"
      aria-label={words.turnOf(ring.name, by)}
      onClick={() => onTurn(inTurn(angle + by))}
    >
      {words.turn(by)}
    </button>
  );
  return (
    <li className={wrong ? 'ring-row wrong' : 'ring-row'}>
      <div className="ring-name">
        <b className="ring-mark num">{markOf(page, ring)}</b> <b>{ring.name}</b>{' '}
        <span className="note">{ring.aim === null ? words.noAim : words.aim(ring.aim.angle.value, ring.aim.by)}</span>
      </div>
      <div className="ring-turn">
        {turns.filter((by) => by < 0).map(turn)}
        <input
          className="num"
          type="number"
          inputMode="numeric"
          min={0}
          max={359}
          aria-label={words.angle(ring.name)}
          aria-describedby={id}
          aria-invalid={faults.some(isOfGap) ? true : undefined}
          value={String(angle)}
          onChange={(event) => onTurn(inTurn(Math.round(Number(event.target.value)) || 0))}
        />
        {turns.filter((by) => by > 0).map(turn)}
      </div>
      {ring.faces === 'either' ? null : (
        <Choice
          label={words.mark(ring.name, ring.mark)}
          options={(['crown', 'skirt'] as const).map((value) => ({ value, label: words.facing[value] }))}
          value={facing ?? null}
          onChange={onFace}
        />
      )}
      <p id={id} className={wrong ? 'hot' : 'note'} role={wrong ? 'alert' : undefined}>
        {faults.length === 0 ? words.well : faults.map((fault) => faultWords(fault, page, all)).join('; ')}
      </p>
    </li>
  );
}

function Recorded({ page, changed }: { readonly page: AssemblyPage; readonly changed: boolean }) {
  const { assemble } = useWords();
  const format = useFormat();
  const { person } = useSession();
  const may = useMay('bench');
  const signing = useWrite();
  const { ringsPlaced } = page;
  if (ringsPlaced === null) return null;
  const well = page.rings.every(({ faults }) => faults.length === 0);
  const mine = ringsPlaced.by.id === person.id;
  return (
    <>
      <p>
        {assemble.rings.placed(ringsPlaced.by.name, format.since(ringsPlaced.at))}{' '}
        {ringsPlaced.marksWell ? null : <b className="hot">{assemble.rings.marksNot}</b>}{' '}
        {changed ? <b className="hot">{assemble.rings.changed}</b> : null}
        {ringsPlaced.signedBy === null ? null : assemble.rings.signed(ringsPlaced.signedBy.name)}
      </p>
      {!well || changed || ringsPlaced.signedBy !== null ? null : mine ? (
        <p className="note">{assemble.rings.secondPerson}</p>
      ) : (
        <Button
          big
          disabled={!may || signing.busy}
          onClick={() => signing.write({ path: `/ring-placements/${ringsPlaced.id}/sign-off` })}
        >
          {assemble.rings.sign}
        </Button>
      )}
      <Refusal error={signing.error} />
    </>
  );
}

/** Every ring's gap on the clock: turned, judged as it is turned, recorded with where its mark faces. */
export function RingsPane({ page }: { readonly page: AssemblyPage }) {
  const { assemble } = useWords();
  const wall = useWall();
  const phone = useMedia('(max-width: 560px)');
  const may = useMay('bench');
  const write = useWrite();
  const [turned, setTurned] = useState<Gaps>({});
  const [faced, setFaced] = useState<Facing>({});
  if (page.rings.length === 0) return <p className="state empty">{assemble.state.none}</p>;
  const gaps: Gaps = { ...gapsOf(page), ...turned };
  const facing: Facing = { ...facingOf(page), ...faced };
  const faults = faultsOf(page, gaps, facing);
  const faulty = [...faults.values()].flat().some(isWrong);
  const unseen = page.rings.filter(({ ring, faces }) => faces !== 'either' && facing[ring] === undefined);
  const placed = gapsOf(page);
  const changed =
    Object.entries(gaps).some(([ring, angle]) => placed[ring] !== angle) ||
    page.rings.some(({ ring, seenFacing }) => (facing[ring] ?? null) !== seenFacing);
  const record = () =>
    write.write({
      path: `/jobs/${page.jobId}/ring-placements`,
      body: {
        gaps: Object.entries(gaps).map(([ring, angle]) => ({
          ring,
          angle: { value: String(angle), unit: 'deg' },
          ...(facing[ring] === undefined ? {} : { faces: facing[ring] }),
        })),
      },
    });
  return (
    <section className="rings-pane">
      <div className="drawn">
        <RingClock
          size={wall ? 760 : phone ? 340 : 440}
          gaps={page.rings.map((ring) => ({
            mark: markOf(page, ring),
            name: ring.name,
            angle: gaps[ring.ring] ?? null,
            allowed: !(faults.get(ring.ring) ?? []).some(isOfGap),
          }))}
          forbidden={page.zones.map(({ from, to }) => ({ from: Number(from.value), to: Number(to.value) }))}
        />
        <p className="note">
          {assemble.rings.clockwise}{' '}
          {page.leastSeparation === null ? null : assemble.rings.least(page.leastSeparation.value)}{' '}
          {page.railOffset === null ? null : assemble.rings.leastRail(page.railOffset.value)}
        </p>
        <p className="caution">{assemble.rings.caution}</p>
      </div>
      <div className="worked">
        <h2>{assemble.rings.title}</h2>
        <ul>
          {page.rings.map((ring) => (
            <RingRow
              key={ring.ring}
              page={page}
              ring={ring}
              angle={gaps[ring.ring] ?? 0}
              faults={faults.get(ring.ring) ?? []}
              facing={facing[ring.ring]}
              onTurn={(angle) => setTurned({ ...turned, [ring.ring]: angle })}
              onFace={(faces) => setFaced({ ...faced, [ring.ring]: faces })}
            />
          ))}
        </ul>
        <Recorded page={page} changed={changed} />
        <div className="acts">
          <Button big kind="main" disabled={!may || write.busy || unseen.length > 0} onClick={record}>
            {faulty ? assemble.rings.recordFaulty : assemble.rings.record}
          </Button>
          <Button big onClick={() => setTurned(aimedGaps(page))}>
            {assemble.rings.asSheet}
          </Button>
        </div>
        {unseen.length === 0 ? null : (
          <p className="note">{assemble.rings.marksFirst(unseen.map(({ name }) => name).join(', '))}</p>
        )}
        {faulty ? <p className="note">{assemble.rings.faultyWhy}</p> : null}
        <Refusal error={write.error} />
      </div>
    </section>
  );
}
