import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { AssemblyPage } from '#contracts/assembly.ts';
import type { Closing, ReasonAgainstClosing } from '#contracts/openings.ts';
import { HrefLink } from '../../app/href-link.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { closingQuery, handBackQuery } from './assembly-query.ts';
import type { AssemblyStep } from './assembly-steps.tsx';
import { ProofCard } from './proof-card.tsx';

interface ClosingPaneProps {
  readonly page: AssemblyPage;
  readonly onStep: (step: AssemblyStep) => void;
}

/** Where a reason is settled: at this bench, in the procedure's tally, or on the engine's page. */
function leadOf({
  kind,
}: ReasonAgainstClosing): 'rings' | 'fasteners' | 'lash' | 'procedure' | 'engine' | 'search' | 'check' {
  switch (kind) {
    case 'ring-not-placed':
    case 'ring-against-rule':
    case 'rings-unsigned':
      return 'rings';
    case 'torque-incomplete':
      return 'fasteners';
    case 'lash-not-verified':
    case 'lash-undecided':
    case 'lash-out':
      return 'lash';
    case 'obligation-open':
      return 'engine';
    case 'may-be-inside':
      return 'search';
    case 'not-checked':
      return 'check';
    case 'put-in-still-in':
    case 'layer-off':
    case 'piece-loose':
    case 'piece-missing':
    case 'procedure-left':
    case 'assembly-unfinished':
    case 'stop-unsigned':
      return 'procedure';
  }
}

type LeadTo = ReturnType<typeof leadOf>;
const leads: readonly LeadTo[] = ['search', 'procedure', 'engine', 'fasteners', 'rings', 'lash', 'check'];
const SHOWN = 5;

function Lead({ page, lead, onStep }: ClosingPaneProps & { readonly lead: LeadTo }) {
  const { assemble } = useWords();
  const words = assemble.closing.goTo[lead];
  if (lead === 'engine') {
    return (
      <Link className={buttonClass()} to="/engines/$engineId" params={{ engineId: page.engineId }}>
        {words}
      </Link>
    );
  }
  if (lead === 'procedure') {
    return (
      <Link className={buttonClass()} to="/bench/$jobId/procedure" params={{ jobId: page.jobId }}>
        {words}
      </Link>
    );
  }
  if (lead === 'search' || lead === 'check') {
    const to = lead === 'search' ? '/bench/$jobId/search' : '/bench/$jobId/check';
    return (
      <Link className={buttonClass()} to={to} params={{ jobId: page.jobId }}>
        {words}
      </Link>
    );
  }
  return <Button onClick={() => onStep(lead)}>{words}</Button>;
}

function Lines({ reasons }: { readonly reasons: readonly ReasonAgainstClosing[] }) {
  return (
    <ul>
      {reasons.map((reason) => (
        <li key={`${reason.kind} ${reason.subject} ${reason.stage ?? ''} ${reason.words}`}>
          <HrefLink href={reason.href}>{reason.words}</HrefLink>
        </li>
      ))}
    </ul>
  );
}

/** The reasons by where they are settled: few at a glance, the others one tap away. */
function Reasons({ page, closing, onStep }: ClosingPaneProps & { readonly closing: Closing }) {
  const { assemble } = useWords();
  return leads.map((lead) => {
    const reasons = closing.reasons.filter((reason) => leadOf(reason) === lead);
    if (reasons.length === 0) return null;
    const more = reasons.slice(SHOWN);
    return (
      <section key={lead} className="reasons">
        <div className="reasons-head">
          <h3>{assemble.closing.group[lead](reasons.length)}</h3>
          <Lead page={page} lead={lead} onStep={onStep} />
        </div>
        <Lines reasons={reasons.slice(0, SHOWN)} />
        {more.length === 0 ? null : (
          <details>
            <summary>{assemble.closing.more(more.length)}</summary>
            <Lines reasons={more} />
          </details>
        )}
      </section>
    );
  });
}

interface GateProps extends ClosingPaneProps {
  readonly closing: Closing;
}

function IsClosed({ closed }: { readonly closed: NonNullable<Closing['closed']> }) {
  const { closing: words } = useWords().assemble;
  const format = useFormat();
  const { by, at, override } = closed;
  return (
    <>
      <h2>{words.isClosed}</h2>
      <p>{words.closed(by.name, format.since(at))}</p>
      {override === null ? null : (
        <>
          <p className="hot">{words.overridden(override.words)}</p>
          <h3>{words.although}</h3>
          <ul>
            {override.reasons.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

/** What no lead signs for: a layer that is off, what may be inside, what was put in and is not out. */
const firm: ReadonlySet<ReasonAgainstClosing['kind']> = new Set(['layer-off', 'may-be-inside', 'put-in-still-in']);
const isFirm = ({ kind }: ReasonAgainstClosing): boolean => firm.has(kind);

function OpenGate({ page, closing, onStep }: GateProps) {
  const { closing: words } = useWords().assemble;
  const may = useMay('bench');
  const lead = useMay('lead');
  const write = useWrite();
  const [note, setNote] = useState('');
  const [override, setOverride] = useState('');
  const mayOverride = lead && !closing.mayClose && !closing.reasons.some(isFirm);
  const ready = closing.mayClose || (mayOverride && override.trim() !== '');
  const close = () =>
    write.write({
      path: `/openings/${page.openingId}/close`,
      body: {
        ...(note.trim() === '' ? {} : { note: note.trim() }),
        ...(mayOverride ? { override: override.trim() } : {}),
      },
    });
  return (
    <>
      <h2>{words.title}</h2>
      {closing.mayClose ? <p>{words.well}</p> : <Reasons page={page} closing={closing} onStep={onStep} />}
      <p className="caution">{words.caution}</p>
      {mayOverride ? (
        <Field label={words.override} hint={words.overrideHint} big>
          {(input) => (
            <input {...input} maxLength={500} value={override} onChange={({ target }) => setOverride(target.value)} />
          )}
        </Field>
      ) : null}
      {closing.mayClose || mayOverride ? (
        <Field label={words.note} big>
          {(input) => (
            <input {...input} maxLength={500} value={note} onChange={({ target }) => setNote(target.value)} />
          )}
        </Field>
      ) : null}
      <Button big kind="main" disabled={!may || !ready || write.busy} onClick={close}>
        {mayOverride ? words.closeAllTheSame : words.close}
      </Button>
      <Refusal error={write.error} />
    </>
  );
}

function Gate({ page, onStep }: ClosingPaneProps) {
  const { closing: words } = useWords().assemble;
  const { data: closing, error } = useQuery(closingQuery(page.jobId, page.openingId));
  if (page.openingId === null) return <h2>{words.none}</h2>;
  if (closing === undefined) return <Refusal error={error} />;
  if (closing.closed !== null) return <IsClosed closed={closing.closed} />;
  return <OpenGate page={page} closing={closing} onStep={onStep} />;
}

/** What still keeps the engine open, its closing, and the proofs. */
export function ClosingPane({ page, onStep }: ClosingPaneProps) {
  const { assemble } = useWords();
  const { data: handBack, error } = useQuery(handBackQuery(page.jobId));
  return (
    <section className="closing-pane">
      <div className="worked">
        <Gate page={page} onStep={onStep} />
      </div>
      <div className="worked">
        <h2>{assemble.proofs.title}</h2>
        <p className="caution">{assemble.proofs.caution}</p>
        <Refusal error={error} />
        {handBack?.proofs.length === 0 ? <p>{assemble.proofs.none}</p> : null}
        {handBack?.proofs.map((proof) => (
          <ProofCard key={proof.code} jobId={page.jobId} proof={proof} />
        ))}
      </div>
    </section>
  );
}
