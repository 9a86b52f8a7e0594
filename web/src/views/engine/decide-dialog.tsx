import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import type { Decide } from '#contracts/obligations.ts';
import type { PartName } from '#contracts/parts.ts';
import type { SpecSheet } from '#contracts/specs.ts';
import { asksForWork, type DispositionKind, decisionFault, dispositionKinds } from '#domain/obligations/disposition.ts';
import { read } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { type AskedPart, AskedParts, type EnginePlace } from './asked-parts.tsx';
import { isAboutSize, kindsFor } from './decision-kinds.ts';
import { DecisionOutlook } from './decision-outlook.tsx';
import { ReasonField } from './reason-field.tsx';
import { ResurfacingOutlook } from './resurfacing-outlook.tsx';

type Obligation = EnginePage['obligations'][number];

type Props = {
  readonly obligation: Obligation;
  /** Others of this job still to be decided: one decision may settle several. */
  readonly others: readonly Obligation[];
  readonly page: EnginePage;
  readonly onClose: () => void;
};

/** What the sheet knows of the obligation's dimension: whether its surface is plated, and its size classes. */
function useSheetFacts(page: EnginePage, obligation: Obligation) {
  const revisionId = page.job?.revision.id;
  const sheet = useQuery({
    queryKey: ['spec-sheet', revisionId],
    queryFn: ({ signal }) => read<SpecSheet>(`/spec-revisions/${revisionId}`, signal),
    enabled: revisionId !== undefined && obligation.cause.kind === 'finding',
    meta: { follows: 'no change' },
  });
  const { cause } = obligation;
  if (cause.kind !== 'finding') return { plated: false, sizeClasses: [] };
  const code = page.measured.find(({ findings }) => findings.some(({ id }) => id === cause.findingId))?.dimension;
  const dimension = sheet.data?.dimensions.find((one) => one.code === code);
  const place = sheet.data?.places.find((one) => one.code === dimension?.placeCode);
  return {
    plated: place?.plated ?? false,
    sizeClasses: (dimension?.limits ?? []).map(({ sizeClass }) => sizeClass).filter((size) => size !== ''),
  };
}

/** The place of the obligation's dimension, for the parts that fit it. */
function placeOf({ family, measured }: EnginePage, { cause }: Obligation): EnginePlace | null {
  if (cause.kind !== 'finding') return null;
  const place = measured.find(({ findings }) => findings.some(({ id }) => id === cause.findingId))?.place;
  return place === undefined || place.code === '' ? null : { familyId: family.id, placeCode: place.code };
}

function AlsoSettles({
  others,
  chosen,
  choose,
}: {
  readonly others: readonly Obligation[];
  readonly chosen: ReadonlySet<string>;
  readonly choose: (id: string) => void;
}) {
  const words = useWords().engine;
  if (others.length === 0) return null;
  return (
    <fieldset className="also">
      <legend>{words.decideAlso}</legend>
      {others.map(({ id, words: what }) => (
        <label key={id}>
          <input type="checkbox" checked={chosen.has(id)} onChange={() => choose(id)} />
          <span>{what}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** What the decision would come to, where figures tell it. */
function Outlooks({
  obligation,
  kind,
  onTake,
}: {
  readonly obligation: Obligation;
  readonly kind: DispositionKind | null;
  readonly onTake: (size: string, part: PartName | null) => void;
}) {
  if (kind === null || obligation.cause.kind !== 'finding') return null;
  if (kind === 'resurface') return <ResurfacingOutlook obligationId={obligation.id} />;
  return isAboutSize(kind) ? <DecisionOutlook obligationId={obligation.id} kind={kind} onTake={onTake} /> : null;
}

/** Decides what is done about an obligation: its kind, a reason where one is owed, a size to bore to. */
export function DecideDialog({ obligation, others, page, onClose }: Props) {
  const words = useWords().engine;
  const byLead = useMay('lead');
  const { plated, sizeClasses } = useSheetFacts(page, obligation);
  const [kind, setKind] = useState<DispositionKind | null>(null);
  const [reason, setReason] = useState('');
  const [size, setSize] = useState('');
  const [also, setAlso] = useState<ReadonlySet<string>>(new Set());
  const [asked, setAsked] = useState<readonly AskedPart[]>([]);
  const [tried, setTried] = useState(false);
  const writing = useWrite();
  const about = { verdict: obligation.cause.kind === 'finding' ? obligation.cause.verdict : undefined, plated };
  const faultOf = (of: DispositionKind) =>
    decisionFault(
      { kind: of, reason: reason.trim(), sizeClass: size.trim() === '' ? undefined : size.trim(), byLead },
      about,
    );
  const fault = kind === null ? undefined : faultOf(kind);
  const impossible = (of: DispositionKind): string | undefined => {
    const found = decisionFault({ kind: of, reason: 'said', sizeClass: 'said', byLead }, about);
    return found === undefined ? undefined : words.decideFaults[found];
  };
  const choose = (id: string) => setAlso(new Set(also.has(id) ? [...also].filter((one) => one !== id) : [...also, id]));
  const take = (of: string, part: PartName | null) => {
    setSize(of);
    if (part !== null && !asked.some((one) => one.part.id === part.id)) setAsked([...asked, { part, quantity: 1 }]);
  };
  const send = () => {
    setTried(true);
    if (kind === null || fault !== undefined) return;
    const body: Decide = {
      obligationIds: [obligation.id, ...also],
      kind,
      ...(reason.trim() === '' ? {} : { reason: reason.trim() }),
      ...(kind === 'bore' ? { sizeClass: size.trim() } : {}),
      ...(asksForWork(kind) && asked.length > 0
        ? { demands: asked.map(({ part, quantity }) => ({ partId: part.id, quantity })) }
        : {}),
    };
    writing.write({ path: '/obligations/decide', body }, onClose);
  };
  return (
    <Dialog title={words.decideTitle} open onClose={onClose}>
      <form
        className="decide"
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <p>{obligation.words}</p>
        <Choice
          label={words.decideKind}
          value={kind}
          onChange={setKind}
          options={kindsFor(obligation.cause.kind, dispositionKinds).map((one) => {
            const why = impossible(one);
            return {
              value: one,
              label: words.kinds[one],
              ...(why === undefined ? {} : { note: why, disabled: true }),
            };
          })}
        />
        <Outlooks obligation={obligation} kind={kind} onTake={take} />
        {kind === 'bore' ? (
          <Field
            label={words.decideSize}
            hint={words.decideSizeHint}
            error={tried && fault === 'needs-size-class' ? words.decideFaults[fault] : undefined}
          >
            {(input) => (
              <>
                <input
                  {...input}
                  list="size-classes"
                  maxLength={40}
                  value={size}
                  onChange={({ target }) => setSize(target.value)}
                />
                <datalist id="size-classes">
                  {sizeClasses.map((one) => (
                    <option key={one} value={one} />
                  ))}
                </datalist>
              </>
            )}
          </Field>
        ) : null}
        <ReasonField
          {...(kind === 'reuse' || kind === 'other' ? { hint: words.decideReasonNeeded } : {})}
          error={tried && fault === 'needs-reason' ? words.decideFaults[fault] : undefined}
          rows={2}
          reason={reason}
          onReason={setReason}
        />
        {kind !== null && asksForWork(kind) ? (
          <AskedParts asked={asked} change={setAsked} place={kind === 'replace' ? placeOf(page, obligation) : null} />
        ) : null}
        <AlsoSettles others={others} chosen={also} choose={choose} />
        <p className="note">{words.makerDecides}</p>
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button onClick={onClose}>{words.cancel}</Button>
          <Button type="submit" kind="main" disabled={kind === null || writing.busy}>
            {words.decideSend}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
