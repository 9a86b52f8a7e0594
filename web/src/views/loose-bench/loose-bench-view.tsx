import { Link, useNavigate, useParams, useSearch } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import { type CalculationKind, calculate, findCalculation } from '#domain/build/calculations/kinds.ts';
import { useMay } from '../../app/session.tsx';
import { MissingPage } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { DrawingOf } from './drawing-of.tsx';
import { type Entries, entriesOf, givenOf, searchOf } from './entries.ts';
import { FamilyChoice } from './family-choice.tsx';
import { InputList } from './input-list.tsx';
import { KeepDialog } from './keep-dialog.tsx';
import { FastenerSetPane } from './panes/fastener-set-pane.tsx';
import { type BenchKind, benchKindIn, findPane, type PaneKind, paneKinds } from './panes/kinds.ts';
import { RingClockPane } from './panes/ring-clock-pane.tsx';
import { ShellsPane } from './panes/shells-pane.tsx';
import { WholeHeadPane } from './panes/whole-head-pane.tsx';
import { WrenchPane } from './panes/wrench-pane.tsx';
import { ComparedRows, nameIn, Results } from './results.tsx';
import { useAddress } from './use-address.ts';
import './loose-bench.css';

const groups: Readonly<Record<'cylinder' | 'crank' | 'ports' | 'fluids', readonly CalculationKind[]>> = {
  cylinder: ['displacement', 'compression-ratio', 'bore-comparison', 'ring-gap'],
  crank: ['piston-motion', 'valve-to-piston', 'cam-timing', 'cam-points'],
  ports: ['port-timing', 'port-heights'],
  fluids: ['mixture', 'coolant', 'oil-level', 'fill-by-weight'],
};
const groupNames = ['cylinder', 'crank', 'ports', 'fluids'] as const;

/** Reckoning without a job: choose what, key it in, read it while keying. */
export function LooseBenchView() {
  const { calculation } = useParams({ strict: false });
  const kind = benchKindIn(calculation);
  if (kind === undefined) return <MissingPage />;
  const pane = findPane(kind);
  const calculated = findCalculation(kind);
  if (pane !== undefined) return <PaneBench key={pane} kind={pane} />;
  return calculated === undefined ? <MissingPage /> : <Bench kind={calculated} />;
}

function Head() {
  const { looseBench: words } = useWords();
  return (
    <div className="loose-head">
      <h1>{words.title}</h1>
      <p className="note">{words.lead}</p>
    </div>
  );
}

const noEntries: Entries = {};
const panes = {
  'fastener-set': FastenerSetPane,
  wrench: WrenchPane,
  'ring-clock': RingClockPane,
  'whole-head': WholeHeadPane,
  'bearing-shells': ShellsPane,
} as const;

/** What chooses instead of reckoning: the server answers while it is keyed. */
function PaneBench({ kind }: { readonly kind: PaneKind }) {
  const Pane = panes[kind];
  return (
    <main className="loose">
      <Head />
      <KindList kind={kind} entries={noEntries} />
      <Pane />
    </main>
  );
}

function Bench({ kind }: { readonly kind: CalculationKind }) {
  const { looseBench: words } = useWords();
  const search: Readonly<Record<string, unknown>> = useSearch({ strict: false });
  const [entries, setEntries] = useState<Entries>(() => entriesOf(search));
  const mayKeep = useMay('bench');
  const [keeping, setKeeping] = useState(false);
  useAddress(
    kind,
    useMemo(() => searchOf(kind, entries), [kind, entries]),
  );
  const given = useMemo(() => givenOf(kind, entries), [kind, entries]);
  const worked = useMemo(() => calculate(kind, given), [kind, given]);
  const fill = (more: Entries) => setEntries((before) => ({ ...before, ...more }));
  return (
    <main className="loose">
      <Head />
      <KindList kind={kind} entries={entries} />
      <section className="loose-work" aria-labelledby="reckoned">
        <header>
          <h2 id="reckoned">{words.kinds[kind]}</h2>
          <div className="loose-acts no-print">
            {mayKeep ? (
              <Button kind="main" disabled={!worked.ok} onClick={() => setKeeping(true)}>
                {words.keep.open}
              </Button>
            ) : null}
            <Button onClick={() => setEntries({})}>{words.clear}</Button>
            <Button onClick={() => window.print()}>{words.print}</Button>
          </div>
        </header>
        <div className="loose-pair">
          <div className="loose-given">
            <FamilyChoice kind={kind} fill={fill} />
            <InputList kind={kind} entries={entries} faults={worked.ok ? [] : worked.faults} change={fill} />
            {worked.ok ? (
              <div className="loose-drawing">
                <DrawingOf kind={kind} given={given} figures={worked.figures} />
              </div>
            ) : null}
          </div>
          <div className="loose-found" aria-live="polite">
            <h3>{words.found}</h3>
            {worked.ok ? (
              <Results figures={worked.figures} />
            ) : (
              <NotYet missing={worked.faults.filter(({ reason }) => reason === 'missing').map(({ field }) => field)} />
            )}
            {worked.ok ? <Cautions codes={worked.cautions.map(({ code }) => code)} /> : null}
            <ul className="loose-formulas">
              {words.formulas[kind].map((formula) => (
                <li key={formula} className="num">
                  {formula}
                </li>
              ))}
            </ul>
          </div>
        </div>
        {worked.ok ? <ComparedRows kind={kind} rows={worked.rows} /> : null}
        <p className="note no-print">{words.link}</p>
        {keeping ? <KeepDialog kind={kind} given={given} onClose={() => setKeeping(false)} /> : null}
      </section>
    </main>
  );
}

function KindList({ kind, entries }: { readonly kind: BenchKind; readonly entries: Entries }) {
  const { looseBench: words, loosePanes } = useWords();
  const navigate = useNavigate();
  const go = (calculation: string) => void navigate({ to: '/loose-bench/$calculation', params: { calculation } });
  return (
    <>
      <nav className="loose-kinds" aria-label={words.choose}>
        {groupNames.map((group) => (
          <div key={group}>
            <h2>{words.groups[group]}</h2>
            <ul>
              {groups[group].map((one) => (
                <li key={one}>
                  <Link
                    to="/loose-bench/$calculation"
                    params={{ calculation: one }}
                    search={searchOf(one, entries) as never}
                    aria-current={one === kind ? 'page' : undefined}
                  >
                    {words.kinds[one]}
                  </Link>
                </li>
              ))}
            </ul>
          </div>
        ))}
        <div>
          <h2>{loosePanes.group}</h2>
          <ul>
            {paneKinds.map((one) => (
              <li key={one}>
                <Link
                  to="/loose-bench/$calculation"
                  params={{ calculation: one }}
                  search={{} as never}
                  aria-current={one === kind ? 'page' : undefined}
                >
                  {loosePanes.kinds[one]}
                </Link>
              </li>
            ))}
          </ul>
        </div>
      </nav>
      <label className="field loose-choice">
        <b>{words.choose}</b>
        <select value={kind} onChange={({ target }) => go(target.value)}>
          {groupNames.map((group) => (
            <optgroup key={group} label={words.groups[group]}>
              {groups[group].map((one) => (
                <option key={one} value={one}>
                  {words.kinds[one]}
                </option>
              ))}
            </optgroup>
          ))}
          <optgroup label={loosePanes.group}>
            {paneKinds.map((one) => (
              <option key={one} value={one}>
                {loosePanes.kinds[one]}
              </option>
            ))}
          </optgroup>
        </select>
      </label>
    </>
  );
}

function NotYet({ missing }: { readonly missing: readonly string[] }) {
  const { looseBench: words } = useWords();
  if (missing.length === 0) return <p className="hot">{words.mend}</p>;
  return (
    <p className="loose-needs">
      {words.stillNeeded(missing.map((code) => nameIn(words.inputs, code).toLowerCase()).join(', '))}
    </p>
  );
}

const stopping = ['piston-meets-head', 'valve-meets-piston'];

function Cautions({ codes }: { readonly codes: readonly string[] }) {
  const { looseBench: words } = useWords();
  return (
    <div className="loose-cautions">
      <h3>{words.careful}</h3>
      <ul>
        {codes.map((code) => (
          <li key={code} className={stopping.includes(code) ? 'hot' : ''}>
            {nameIn(words.cautions, code)}
          </li>
        ))}
      </ul>
    </div>
  );
}
