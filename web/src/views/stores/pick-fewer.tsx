import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { StockMoved } from '#contracts/stock.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import type { Stop } from './pick-stop.ts';

interface FewerProps {
  readonly stop: Stop;
  /** Of that lot, already out of its bin and in the box: still the lot's until they are issued. */
  readonly inBox: number;
  readonly onClose: () => void;
}

/** Less lies in the bin than is to be picked: what does is counted, and what was promised of the rest is short by name. */
export function FewerDialog({ stop, inBox, onClose }: FewerProps) {
  const { walk: words } = useWords().storesDesks;
  const [there, setThere] = useState(0);
  const writing = useWrite<StockMoved>();
  const moved = writing.reply;
  return (
    <Dialog title={words.shortTitle(stop.part.name)} open onClose={onClose}>
      {moved === undefined ? (
        <form
          className="form"
          onSubmit={(event) => {
            event.preventDefault();
            const body = { act: 'count', lotId: stop.lotId, counted: there + inBox, reason: words.shortReason };
            writing.write({ path: '/stock-movements', body });
          }}
        >
          <p>{words.shortWhat}</p>
          <div className="count">
            <b>{words.shortCount}</b>
            <Stepper label={words.shortCount} value={there} min={0} max={100_000} onChange={setThere} />
          </div>
          <Refusal error={writing.error} />
          <div className="dialog-acts">
            <Button type="submit" kind="main" disabled={writing.busy}>
              {words.shortWrite}
            </Button>
            <Button onClick={onClose}>{words.close}</Button>
          </div>
        </form>
      ) : (
        <div className="form" role="status">
          <p>{moved.shortages.length === 0 ? words.shortNone : words.shortMissing}</p>
          <ul className="plain">
            {moved.shortages.map(({ demandLineId, job, missing }) => (
              <li key={demandLineId}>{words.shortOf(missing, job.number, `${job.family} ${job.serial}`)}</li>
            ))}
          </ul>
          <div className="dialog-acts">
            <Button kind="main" onClick={onClose}>
              {words.close}
            </Button>
            <Link className="btn" to="/stores/short">
              {words.toShort}
            </Link>
          </div>
        </div>
      )}
    </Dialog>
  );
}
