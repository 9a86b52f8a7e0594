import { useState } from 'react';
import type { DemandLine, JobDemands, Reserved } from '#contracts/demands.ts';
import type { JobName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite, type Write } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import { type Hold, HoldUntil } from './hold-until.tsx';
import { asksReason, LotChoice, type LotToChoose } from './lot-choice.tsx';
import { ReassignFields } from './reassign-fields.tsx';
import { ReserveAnswer } from './reserve-answer.tsx';
import { ReturnFields } from './return-fields.tsx';
import { isRule, type RuleEntry, ruleBody, ruleEntryOf } from './rule-entry.ts';
import { RuleFields } from './rule-fields.tsx';

type Act = 'issue' | 'release' | 'reassign' | 'return' | 'reserve' | 'choose' | 'rule' | 'cancel';

/** What can be done with a line: how many pieces of it at most. */
function possible(line: DemandLine, rights: { readonly stores: boolean; readonly asks: boolean }): Map<Act, number> {
  const open = line.notAsked + line.short;
  const acts: readonly (readonly [Act, number, boolean])[] = [
    ['issue', line.reserved, rights.stores],
    ['reserve', open, rights.asks],
    ['choose', open, rights.stores],
    ['rule', open + line.reserved, rights.stores],
    ['release', line.reserved, rights.stores],
    ['reassign', line.reserved, rights.stores],
    ['return', line.issued, rights.stores],
    ['cancel', open + line.reserved, rights.asks],
  ];
  return new Map(acts.filter(([, most, may]) => may && most > 0).map(([act, most]) => [act, most]));
}

interface Asked {
  readonly line: DemandLine;
  readonly quantity: number;
  readonly reason: string;
  readonly stillNeeded: boolean;
  /** Into which bin pieces come back; empty: where they lay before. */
  readonly binId: string;
  /** Whose the pieces become. */
  readonly toJobId: string;
  /** The lot they come out of. */
  readonly lot: LotToChoose | null;
  /** By which rule lots are chosen from now on. */
  readonly rule: RuleEntry;
  /** Until when it is held; null: firmly. */
  readonly hold: Hold | null;
}

function writeOf(act: Act, { line, quantity, reason, stillNeeded, binId, toJobId, lot, rule, hold }: Asked): Write {
  const at = `/demand-lines/${line.id}`;
  const why = reason.trim() === '' ? {} : { reason: reason.trim() };
  switch (act) {
    case 'issue':
      return { path: `${at}/issue`, body: { quantity } };
    case 'release':
      return { path: `${at}/release`, body: { quantity, ...why } };
    case 'reassign':
      return { path: `${at}/reassign`, body: { toJobId, quantity, reason: reason.trim() } };
    case 'choose':
      return { path: `${at}/reserve-of-lot`, body: { lotId: lot?.lotId, quantity, ...why } };
    case 'rule':
      return { path: `${at}/lot-rule`, body: { ...ruleBody(rule), reason: reason.trim() } };
    case 'return':
      return { path: `${at}/return`, body: { quantity, stillNeeded, ...(binId === '' ? {} : { binId }), ...why } };
    case 'cancel':
      return { path: `${at}/cancel`, body: { quantity, words: reason.trim() } };
    case 'reserve':
      return {
        path: `/jobs/${line.jobId}/reservations`,
        body: { allOrNothing: false, demandLineIds: [line.id], ...hold?.body },
      };
  }
}

interface LineDialogProps {
  readonly line: DemandLine;
  readonly job: JobName;
  readonly hold: Hold | null;
  readonly onClose: () => void;
}

/** Everything that can be done with one line, so many pieces of it, with a reason. */
export function LineDialog({ line, job, hold, onClose }: LineDialogProps) {
  const { acts: words, rule: ruleSaid } = useWords().stores;
  const ruleNote = ruleSaid.now(line.lotRule?.words ?? '');
  const acts = possible(line, { stores: useMay('stores'), asks: useMay('ask for parts') });
  const [chosen, setChosen] = useState<Act | null>(() => [...acts.keys()][0] ?? null);
  const act = chosen !== null && acts.has(chosen) ? chosen : null;
  const [lot, setLot] = useState<LotToChoose | null>(null);
  const there = act === null ? 0 : (acts.get(act) ?? 0);
  const most = act === 'choose' && lot !== null ? Math.min(there, lot.available) : there;
  const [asked, setAsked] = useState<number | null>(null);
  const quantity = Math.min(asked ?? most, most);
  const [reason, setReason] = useState('');
  const [stillNeeded, setStillNeeded] = useState(false);
  const [binId, setBinId] = useState('');
  const [toJobId, setToJobId] = useState('');
  const [rule, setRule] = useState(() => ruleEntryOf(line));
  const writing = useWrite<JobDemands | Reserved>();
  const wantsReason =
    act === 'cancel' || act === 'reassign' || act === 'rule' || (act === 'choose' && lot !== null && asksReason(lot));
  const unsaid = reason.trim() === '' && wantsReason;
  const said =
    (act !== 'reassign' || toJobId !== '') &&
    (act !== 'choose' || lot !== null) &&
    (act !== 'rule' || isRule(rule)) &&
    (act !== 'reserve' || hold?.past !== true);
  const ready = act !== null && !unsaid && said;
  const reserved = writing.reply !== undefined && 'shortages' in writing.reply ? writing.reply : null;
  const go = () => {
    if (act === null) return;
    writing.write(writeOf(act, { line, quantity, reason, stillNeeded, binId, toJobId, lot, rule, hold }), (reply) => {
      if (!('shortages' in reply) || reply.complete) onClose();
    });
  };
  return (
    <Dialog
      title={words.title(line.part.name, job.number)}
      open
      onClose={onClose}
      acts={
        <>
          {act === null ? null : (
            <Button kind="main" disabled={writing.busy || !ready} onClick={go}>
              {words[act]}
            </Button>
          )}
          <Button onClick={onClose}>{words.close}</Button>
        </>
      }
    >
      <div className="form">
        {acts.size === 0 ? <p>{words.nothing}</p> : null}
        {acts.size === 0 ? null : (
          <Choice
            label={words.what}
            value={act}
            onChange={(next) => {
              setChosen(next);
              setAsked(null);
              writing.clear();
            }}
            options={[...acts].map(([value, there]) => ({
              value,
              label: words[value],
              note: value === 'rule' ? ruleNote : words.of(there),
            }))}
          />
        )}
        {act === 'reassign' ? <ReassignFields line={line} jobId={toJobId} onChoose={setToJobId} /> : null}
        {act === 'choose' ? (
          <LotChoice lineId={line.id} lot={lot} onLot={setLot} reason={reason} onReason={setReason} />
        ) : null}
        {act === 'reserve' && hold !== null ? <HoldUntil hold={hold} /> : null}
        {act === 'rule' ? <RuleFields line={line} rule={rule} onRule={setRule} error={writing.error} /> : null}
        {act === null || act === 'reserve' || act === 'rule' ? null : (
          <div className="count">
            <b>{words.howMany}</b>
            <Stepper label={words.howMany} value={quantity} min={1} max={most} onChange={setAsked} />
          </div>
        )}
        {act === 'return' ? (
          <ReturnFields
            stillNeeded={stillNeeded}
            onStillNeeded={setStillNeeded}
            binId={binId}
            onBin={setBinId}
            error={writing.error}
          />
        ) : null}
        {act === null || act === 'issue' || act === 'reserve' || act === 'choose' ? null : (
          <Field label={words.reason} hint={words.reasonHint}>
            {(input) => (
              <input {...input} maxLength={300} value={reason} onChange={({ target }) => setReason(target.value)} />
            )}
          </Field>
        )}
        {reserved === null ? null : <ReserveAnswer answer={reserved} />}
        <Refusal error={writing.error} />
      </div>
    </Dialog>
  );
}
