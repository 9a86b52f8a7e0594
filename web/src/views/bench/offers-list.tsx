import { Link } from '@tanstack/react-router';
import type { HandoverInList } from '#contracts/custody.ts';
import type { StopPoint } from '#contracts/procedure-runs.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { Overdue } from '../handover/overdue.tsx';

const whatGoes = (
  { includesEngine, trays }: HandoverInList,
  words: { engineAnd: (count: number) => string; onlyTrays: (count: number) => string },
) => (includesEngine ? words.engineAnd(trays) : words.onlyTrays(trays));

/** What others offer me: to be counted now. */
export function OffersToMe({ offers }: { readonly offers: readonly HandoverInList[] }) {
  const words = useWords().myBench;
  const format = useFormat();
  if (offers.length === 0) return null;
  return (
    <section className="bench-now" aria-label={words.toMe}>
      <h2>{words.toMe}</h2>
      <ul>
        {offers.map((offer) => (
          <li key={offer.id}>
            <div>
              <b>
                {words.offers(offer.giver.name)} <span className="num">{offer.engine.serial}</span>
              </b>
              <p>
                {whatGoes(offer, words)}, {words.inBay(offer.place.name)}{' '}
                <span className="note">{words.offeredAt(format.since(offer.offeredAt))}</span> <Overdue offer={offer} />
              </p>
              <p className="note">{offer.stateWords}</p>
            </div>
            <Link className={buttonClass('main', true)} to="/handovers/$handoverId" params={{ handoverId: offer.id }}>
              {offer.traysCounted > 0 ? words.goOnCounting : words.countNow}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

function MyOffer({ offer }: { readonly offer: HandoverInList }) {
  const words = useWords().myBench;
  const format = useFormat();
  const writing = useWrite();
  return (
    <li>
      <div>
        <b>
          <span className="num">{offer.engine.serial}</span> {words.waitsFor(offer.receiver.name)}
        </b>
        <p>
          {whatGoes(offer, words)} <span className="note">{words.offeredAt(format.since(offer.offeredAt))}</span>{' '}
          <Overdue offer={offer} />
        </p>
        {offer.trays === 0 ? null : <p className="note">{words.countedSoFar(offer.traysCounted, offer.trays)}</p>}
        <Refusal error={writing.error} />
      </div>
      <div className="hands-acts">
        <Link className={buttonClass('plain', true)} to="/handovers/$handoverId" params={{ handoverId: offer.id }}>
          {words.lookAt}
        </Link>
        <Button big disabled={writing.busy} onClick={() => writing.write({ path: `/handovers/${offer.id}/withdraw` })}>
          {words.withdraw}
        </Button>
      </div>
    </li>
  );
}

/** What I offered: mine until it is accepted, and mine to take back. */
export function OffersByMe({ offers }: { readonly offers: readonly HandoverInList[] }) {
  const words = useWords().myBench;
  if (offers.length === 0) return null;
  return (
    <section aria-label={words.byMe}>
      <h2>{words.byMe}</h2>
      <ul className="bench-list">
        {offers.map((offer) => (
          <MyOffer key={offer.id} offer={offer} />
        ))}
      </ul>
    </section>
  );
}

/** Steps somebody else did, which another person has to look at and sign. */
export function StopsForMe({ stops }: { readonly stops: readonly StopPoint[] }) {
  const words = useWords().myBench;
  const format = useFormat();
  if (stops.length === 0) return null;
  return (
    <section aria-label={words.stops}>
      <h2>{words.stops}</h2>
      <ul className="bench-list">
        {stops.map((stop) => (
          <li key={`${stop.runId} ${stop.stepId}`}>
            <div>
              <b>
                <span className="num">{stop.engine.serial}</span> {stop.title}
              </b>
              <p className="note">{words.stopStep(stop.procedure, stop.ordinal)}</p>
              <p>{words.stopOf(stop.doneBy.name, format.since(stop.doneAt))}</p>
            </div>
            <Link
              className={buttonClass('plain', true)}
              to="/bench/$jobId/procedure"
              params={{ jobId: stop.job.id }}
              search={{ run: stop.runId, step: stop.stepId }}
            >
              {words.look}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
