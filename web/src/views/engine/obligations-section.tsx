import { useState } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import { useMay } from '../../app/session.tsx';
import { StateSign } from '../../drawings/state-sign.tsx';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { PhotosHere } from '../photos/job-photos.tsx';
import { DischargeDialog } from './discharge-dialog.tsx';

type Obligation = EnginePage['obligations'][number];

function useCauseInWords(): (cause: Obligation['cause']) => string {
  const words = useWords().engine;
  return (cause) => {
    switch (cause.kind) {
      case 'finding':
        return words.causes.finding(cause.name, words.rounds[cause.round], cause.verdict);
      case 'handover':
        return words.causes.handover(cause.tray, cause.piece);
      case 'count':
        return words.causes.count(cause.piece);
      case 'lead':
        return words.causes.lead(cause.by.name);
    }
  };
}

function Standing({ obligation }: { readonly obligation: Obligation }) {
  const words = useWords().engine;
  const format = useFormat();
  const { decision, discharge } = obligation;
  return (
    <>
      {decision === null ? (
        discharge === null ? (
          <b className="hot">{words.openObligation}</b>
        ) : null
      ) : (
        <p>
          <b>{kindInWords(decision.kind, words.kinds)}</b>
          {decision.sizeClass === null ? null : <span className="num">, {decision.sizeClass}</span>}
          {decision.reason === '' ? null : <span className="line">{decision.reason}</span>}
          <span className="note line">{words.decidedBy(decision.by.name, format.since(decision.at))}</span>
        </p>
      )}
      {discharge === null ? null : (
        <p className="note">
          {discharge.findingId === null
            ? words.discharged(discharge.by.name, format.since(discharge.at))
            : `${words.proven}, ${format.since(discharge.at)}`}
          {discharge.reason === '' ? null : <span className="line">{discharge.reason}</span>}
        </p>
      )}
    </>
  );
}

const kindInWords = (kind: string, kinds: Readonly<Record<string, string>>): string => kinds[kind] ?? kind;

function Demands({ demands }: { readonly demands: Obligation['demands'] }) {
  const words = useWords().engine;
  return (
    <ul className="demands">
      {demands.map(({ lineId, part, wanted, reserved, short, issued }) => (
        <li key={lineId}>
          {words.demanded(part, wanted)}{' '}
          <StateSign
            state={short > 0 ? 'short' : issued === wanted ? 'issued' : reserved > 0 ? 'reserved' : 'pick-now'}
          />
        </li>
      ))}
    </ul>
  );
}

type Props = {
  readonly engineId: string;
  readonly obligations: readonly Obligation[];
  /** The job that still changes; null: none does. */
  readonly jobId: string | null;
  readonly decide: (obligationId: string) => void;
};

/** What somebody must decide or do, from what it came, and what was decided. */
export function ObligationsSection({ engineId, obligations, jobId, decide }: Props) {
  const words = useWords().engine;
  const causeInWords = useCauseInWords();
  const may = useMay('decide');
  const lead = useMay('lead');
  const [discharging, setDischarging] = useState<Obligation | null>(null);
  const order = ({ decision, discharge }: Obligation): number => (discharge !== null ? 2 : decision !== null ? 1 : 0);
  const sorted = [...obligations].sort((a, b) => order(a) - order(b));
  return (
    <section className="page-part" aria-labelledby="obligations">
      <h2 id="obligations">{words.obligations}</h2>
      {sorted.length === 0 ? <p className="note">{words.noObligations}</p> : null}
      <ul className="obligations">
        {sorted.map((obligation) => (
          <li
            key={obligation.id}
            id={`obligation-${obligation.id}`}
            tabIndex={-1}
            className={order(obligation) === 0 ? 'obligation now' : 'obligation'}
          >
            <div>
              <b>{causeInWords(obligation.cause)}</b>
              <p className="note">{obligation.words}</p>
              <Demands demands={obligation.demands} />
            </div>
            <div>
              <Standing obligation={obligation} />
              {jobId === null ? null : (
                <PhotosHere
                  engineId={engineId}
                  target={{ jobId, of: { obligation: obligation.id }, words: causeInWords(obligation.cause) }}
                  which={({ of }) => of.kind === 'obligation' && of.id === obligation.id}
                />
              )}
            </div>
            {jobId !== null && obligation.discharge === null ? (
              <div className="obligation-acts no-print">
                {may ? (
                  <Button onClick={() => decide(obligation.id)}>
                    {obligation.decision === null ? words.decideAct : words.decideAgain}
                  </Button>
                ) : null}
                {lead ? <Button onClick={() => setDischarging(obligation)}>{words.dischargeAct}</Button> : null}
              </div>
            ) : null}
          </li>
        ))}
      </ul>
      {discharging === null ? null : <DischargeDialog obligation={discharging} onClose={() => setDischarging(null)} />}
    </section>
  );
}
