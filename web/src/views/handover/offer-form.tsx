import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { TrayInShop } from '#contracts/custody.ts';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMedia } from '../../app/use-media.ts';
import { useWrite } from '../../app/write.ts';
import { depthInWords } from '../../drawings/section/section.tsx';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { toHandOverQuery } from '../bench/hands-queries.ts';
import { Toggles } from '../bench/toggles.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { BesideEngine } from './beside-engine.tsx';
import { LooseFasteners } from './loose-fasteners.tsx';

const ENGINE = 'engine';

/** What goes with the offer by itself: what stands open, and what is loose by the torque log. */
function GoesWith({ jobId }: { readonly jobId: string }) {
  const { offer } = useWords().handover;
  const said = useQuery(toHandOverQuery(jobId)).data;
  if (said === undefined) return null;
  return (
    <>
      {said.openObligations.length === 0 ? null : (
        <li>
          {offer.duties}
          <ul className="open-obligations">
            {said.openObligations.map((duty) => (
              <li key={duty}>{duty}</li>
            ))}
          </ul>
        </li>
      )}
      {said.looseFasteners.length === 0 ? null : (
        <li>
          {offer.fasteners}
          <LooseFasteners fasteners={said.looseFasteners} />
        </li>
      )}
      <BesideEngine jobId={jobId} words={offer.beside} />
    </>
  );
}

interface OfferFormProps {
  readonly engine: EngineStanding;
  /** The engine itself is mine and in no offer. */
  readonly freeEngine: boolean;
  readonly trays: readonly TrayInShop[];
  readonly receivers: readonly { readonly id: string; readonly name: string }[];
  readonly bays: Floor['bays'];
}

/** Who gets it, where, what of it, and what is loose; then it is offered, and stays mine until it is accepted. */
export function OfferForm({ engine, freeEngine, trays, receivers, bays }: OfferFormProps) {
  const words = useWords();
  const { offer } = words.handover;
  const navigate = useNavigate();
  const phone = useMedia('(max-width: 820px)');
  const [receiverId, setReceiver] = useState<string | null>(null);
  const [placeId, setPlace] = useState<string | null>(engine.assignedBay?.id ?? null);
  const [chosen, setChosen] = useState<readonly string[]>([
    ...(freeEngine ? [ENGINE] : []),
    ...trays.map(({ id }) => id),
  ]);
  const [loose, setLoose] = useState('');
  const writing = useWrite<{ id: string }>();
  const receiver = receivers.find(({ id }) => id === receiverId);
  const missing = [
    ...(receiver === undefined ? [offer.choosePerson] : []),
    ...(placeId === null ? [offer.chooseBay] : []),
    ...(chosen.length === 0 ? [offer.nothingChosen] : []),
  ];
  const { opening } = engine;
  const go = () => {
    if (missing.length > 0) return;
    const body = {
      receiverId,
      placeId,
      includeEngine: chosen.includes(ENGINE),
      trayIds: trays.map(({ id }) => id).filter((id) => chosen.includes(id)),
      looseWords: loose.trim(),
    };
    writing.write({ path: `/jobs/${engine.job.id}/handovers`, body }, ({ id }) =>
      navigate({ to: '/handovers/$handoverId', params: { handoverId: id } }),
    );
  };
  return (
    <div className="handover">
      <aside className="comes-over">
        <h1>{words.handover.goesOver}</h1>
        <EngineSection family={engine.family} opening={opening} size={phone ? 160 : 300} decorative />
        <ul>
          <li>
            <b>{offer.stands(depthInWords(opening?.depth ?? 'closed', opening?.covered ?? true))}</b>
            {opening !== null && !opening.covered ? <p className="hot">{offer.uncovered}</p> : null}
          </li>
          <li>{offer.until}</li>
          <GoesWith jobId={engine.job.id} />
        </ul>
      </aside>
      <main className="handover-body hands-form">
        <Choice
          label={offer.receiver}
          value={receiverId}
          onChange={setReceiver}
          options={receivers.map(({ id, name }) => ({ value: id, label: name }))}
        />
        {receivers.length === 0 ? <p className="hot">{offer.noReceiver}</p> : null}
        <Choice
          label={offer.bay}
          value={placeId}
          onChange={setPlace}
          options={bays.map(({ id, name, kind, capacity, engineIds }) => ({
            value: id,
            label: name,
            note: `${name.toLowerCase().startsWith(kind) ? '' : `${words.floor.bayKind[kind]}, `}${words.myBench.move.full(engineIds.length, capacity)}`,
          }))}
        />
        <Toggles
          label={offer.what}
          chosen={chosen}
          onChange={setChosen}
          options={[
            ...(freeEngine ? [{ value: ENGINE, label: offer.engine }] : []),
            ...trays.map(({ id, label, name }) => ({ value: id, label: offer.tray(label, name) })),
          ]}
        />
        <Field label={offer.loose} hint={offer.looseHint} big>
          {(input) => (
            <input {...input} maxLength={500} value={loose} onChange={({ target }) => setLoose(target.value)} />
          )}
        </Field>
        <div className="answer">
          <Refusal error={writing.error} />
          {missing.length === 0 ? null : <p className="note">{missing.join(' ')}</p>}
          <div className="hands-acts">
            <Button big kind="main" disabled={missing.length > 0 || writing.busy} onClick={go}>
              {receiver === undefined ? offer.goNobody : offer.go(receiver.name)}
            </Button>
          </div>
        </div>
      </main>
    </div>
  );
}
