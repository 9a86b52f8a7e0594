import { useQuery } from '@tanstack/react-query';
import type { Cores } from '#contracts/supply.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useScan } from '../../scan/registry.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { CoreChangeDialog } from './core-change-dialog.tsx';
import { Desks } from './desks.tsx';
import { FirstOf } from './first-of.tsx';
import { NotYetRead } from './not-yet-read.tsx';
import { Scrolled } from './scrolled.tsx';
import { FileLink } from './store-files.tsx';
import { coresQuery } from './stores-queries.ts';
import { Tick, TickBar, type Ticks, useTicks } from './ticks.tsx';
import './stores.css';
import './desks.css';

type Core = Cores['items'][number];

/** Worn pieces that vendors charge for until they come back: what is to be sent, what is on its way, what is done. */
export function CoresView() {
  const { cores: words } = useWords().storesDesks;
  const cores = useQuery(coresQuery);
  const items = cores.data?.items ?? [];
  const may = useMay('stores');
  const { coreChanges } = useWords();
  const owed = items.filter(({ creditedAt }) => creditedAt === null);
  const shown = owed.map(({ id }) => id);
  const ticks = useTicks(shown);
  const settled = items.filter(({ creditedAt }) => creditedAt !== null);
  useScan((scanned) => {
    if (scanned.kind !== 'part') return undefined;
    const core = items.find(({ part, creditedAt }) => part.id === scanned.part.id && creditedAt === null);
    if (core === undefined) return { did: words.scanned.none, amiss: true };
    document.getElementById(`core-${core.id}`)?.querySelector('button')?.focus();
    return { did: words.scanned.shown };
  });
  return (
    <main className="stores one-sheet">
      <title>{words.title}</title>
      <div className="p">
        <Desks />
        <div className="hd">
          <h1>{words.title}</h1>
          <FileLink name="cores" />
        </div>
        <NotYetRead query={cores} label={words.reading} lines={6} />
        {cores.data !== undefined && items.length === 0 ? (
          <Empty title={words.nothing}>{words.nothingWhat}</Empty>
        ) : null}
        {may && owed.length > 0 ? (
          <TickBar
            ticks={ticks}
            shown={shown}
            change={coreChanges.open}
            dialog={(coreIds, close) => <CoreChangeDialog coreIds={coreIds} onClose={close} />}
          />
        ) : null}
        <CoreTable title={words.open} cores={owed} ticks={may ? ticks : undefined} />
        <CoreTable title={words.closed} cores={settled} />
        <FirstOf shown={settled.length} of={cores.data?.settled ?? 0}>
          {words.allInFile}
        </FirstOf>
      </div>
    </main>
  );
}

interface TableProps {
  readonly title: string;
  readonly cores: readonly Core[];
  /** Undefined: none of them is chosen here. */
  readonly ticks?: Ticks | undefined;
}

function CoreTable({ title, cores, ticks }: TableProps) {
  const { partChanges } = useWords();
  const { cores: words } = useWords().storesDesks;
  const format = useFormat();
  if (cores.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <Scrolled label={title}>
        <table>
          <thead>
            <tr>
              {ticks === undefined ? null : (
                <th>
                  <span className="visually-hidden">{partChanges.all}</span>
                </th>
              )}
              <th>{words.part}</th>
              <th className="n">{words.count}</th>
              <th>{words.vendor}</th>
              <th className="n">{words.charge}</th>
              <th>{words.owed}</th>
              <th>{words.state}</th>
            </tr>
          </thead>
          <tbody>
            {cores.map((core) => (
              <tr key={core.id} id={`core-${core.id}`}>
                {ticks === undefined ? null : (
                  <td>
                    <Tick ticks={ticks} of={{ id: core.id, name: `${core.part.name}, ${core.vendor.name}` }} />
                  </td>
                )}
                <td>
                  <b>{core.part.name}</b> <span className="num note">{core.part.number}</span>
                </td>
                <td className="n">{core.quantity}</td>
                <td>
                  {core.vendor.name}
                  {core.orderNumber === null ? null : <p className="note">{words.order(core.orderNumber)}</p>}
                </td>
                <td className="n">{core.charge === null ? '' : format.money(core.charge)}</td>
                <td className="num nowrap">{format.date(core.owedAt)}</td>
                <td>
                  <CoreState core={core} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolled>
    </section>
  );
}

function CoreState({ core }: { readonly core: Core }) {
  const { cores: words } = useWords().storesDesks;
  const format = useFormat();
  const may = useMay('stores');
  const writing = useWrite<Cores>();
  const mark = (what: 'sent' | 'credited') => writing.write({ path: `/cores/${core.id}/marks`, body: { mark: what } });
  const { sentAt, creditedAt, part } = core;
  return (
    <>
      <p>
        {creditedAt !== null
          ? words.credited(format.date(creditedAt))
          : sentAt !== null
            ? words.sent(format.date(sentAt))
            : words.toSend}
      </p>
      {may && creditedAt === null ? (
        <Button
          disabled={writing.busy}
          aria-label={sentAt === null ? words.markSentOf(part.name) : words.markCreditedOf(part.name)}
          onClick={() => mark(sentAt === null ? 'sent' : 'credited')}
        >
          {sentAt === null ? words.markSent : words.markCredited}
        </Button>
      ) : null}
      <Refusal error={writing.error} />
    </>
  );
}
