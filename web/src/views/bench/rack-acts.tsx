import { useState } from 'react';
import type { Rack } from '#contracts/searches.ts';
import { ReasonForm } from '../../app/reason-form.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite, type Writing } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { RackMove } from './rack-move.tsx';
import { namesIn, unplacedIn, type Within } from './rack-wells.ts';

interface RackActsProps {
  readonly rack: Rack;
  readonly jobId: string;
  readonly openingId: string;
  readonly within: Within;
  readonly chosen: ReadonlySet<string>;
  readonly onDone: () => void;
}

interface ChosenActs extends RackActsProps {
  readonly writing: Writing<unknown>;
}

/** What lies in the chosen places goes back on, each into its own place; or it does not lie there after all. */
function OfFilled({ rack, openingId, chosen, onDone, writing }: ChosenActs) {
  const { rack: words } = useWords().tally;
  const places = [...chosen];
  const goBack = (how: 'fitted' | 'renewed') =>
    writing.write(
      {
        path: `/openings/${openingId}/pieces/${how}`,
        body: { pieces: [{ pieceId: rack.pieceId, count: places.length, places }] },
      },
      onDone,
    );
  return (
    <>
      {rack.oneTime ? null : (
        <Button big kind="main" disabled={writing.busy} onClick={() => goBack('fitted')}>
          {words.back(places.length)}
        </Button>
      )}
      <Button big disabled={writing.busy} onClick={() => goBack('renewed')}>
        {words.renewed(places.length)}
      </Button>
      <Button
        big
        disabled={writing.busy}
        onClick={() =>
          writing.write(
            { path: `/openings/${openingId}/racks/${rack.pieceId}/places`, body: { emptied: places } },
            onDone,
          )
        }
      >
        {words.empty(places.length)}
      </Button>
    </>
  );
}

function OfEmpty({ rack, openingId, within, chosen, onDone, writing }: ChosenActs) {
  const { rack: words } = useWords().tally;
  const unplaced = unplacedIn(rack, within);
  const places = [...chosen];
  const body = { filled: places, ...(within === undefined ? {} : { trayId: within }) };
  if (places.length > unplaced) return <p className="note">{words.tooMany(unplaced)}</p>;
  return (
    <Button
      big
      kind="main"
      disabled={writing.busy}
      onClick={() => writing.write({ path: `/openings/${openingId}/racks/${rack.pieceId}/places`, body }, onDone)}
    >
      {words.fill(places.length)}
    </Button>
  );
}

function SwapForm({ rack, openingId, chosen, onDone, onCancel }: RackActsProps & { readonly onCancel: () => void }) {
  const { rack: words } = useWords().tally;
  const [one = '', other = ''] = [...chosen];
  return (
    <ReasonForm
      big
      formClass="hands-form"
      actsClass="hands-acts"
      label={words.swapReason}
      go={words.swapGo}
      cancel={words.cancel}
      path={`/openings/${openingId}/racks/${rack.pieceId}/swap`}
      bodyOf={(reason) => ({ one, other, reason })}
      onCancel={onCancel}
      onDone={onDone}
    />
  );
}

/** What can be done with the chosen places of a rack, under the thumb. */
export function RackActs(props: RackActsProps) {
  const { rack, jobId, openingId, chosen, onDone } = props;
  const { rack: words } = useWords().tally;
  const writing = useWrite();
  const [doing, setDoing] = useState<'swap' | 'move' | null>(null);
  const done = () => {
    setDoing(null);
    onDone();
  };
  const filled = rack.places.filter(({ code, filled: lies }) => chosen.has(code) && lies === true).length;
  if (chosen.size === 0) return null;
  const acts = { ...props, onDone: done, writing };
  return (
    <div className="rack-acts">
      <p aria-live="polite">
        <b>{words.chosen(namesIn(rack, chosen))}</b>
      </p>
      {doing === 'swap' && chosen.size === 2 ? (
        <SwapForm {...props} onDone={done} onCancel={() => setDoing(null)} />
      ) : doing === 'move' && filled === chosen.size ? (
        <RackMove
          {...{ jobId, openingId, pieceId: rack.pieceId, places: [...chosen] }}
          onDone={done}
          onCancel={() => setDoing(null)}
        />
      ) : (
        <div className="hands-acts">
          {filled === chosen.size ? <OfFilled {...acts} /> : filled === 0 ? <OfEmpty {...acts} /> : null}
          {filled === chosen.size ? (
            <Button big disabled={writing.busy} onClick={() => setDoing('move')}>
              {words.move}
            </Button>
          ) : null}
          {chosen.size === 2 ? (
            <Button big disabled={writing.busy} onClick={() => setDoing('swap')}>
              {words.swap}
            </Button>
          ) : null}
          {filled > 0 && filled < chosen.size ? <p className="note">{words.mixed}</p> : null}
        </div>
      )}
      <Refusal error={writing.error} />
    </div>
  );
}
