import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { PackingSlip } from '#contracts/custody-past.ts';
import { Failed } from '../../app/view-states.tsx';
import { Section } from '../../drawings/section/section.tsx';
import { Button } from '../../kit/button.tsx';
import { HeadOfPaper } from '../../kit/head-of-paper.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { slipQuery } from './custody-queries.ts';
import '../sheet/sheet.css';
import './custody.css';

/** The slip that goes with a piece to a vendor: on screen as it will be on paper. */
export function SlipView() {
  const words = useWords().custody.slip;
  const { outsideId } = useParams({ from: '/slips/$outsideId' });
  const slip = useQuery(slipQuery(outsideId));
  return (
    <main className="sheet-page">
      <nav className="sheet-acts no-print" aria-label={words.title}>
        <Link className="btn" to="/bench">
          {words.toBench}
        </Link>
        <Button kind="main" disabled={slip.data === undefined} onClick={() => window.print()}>
          {words.print}
        </Button>
      </nav>
      {slip.isError && slip.data === undefined ? (
        <Failed error={slip.error} again={() => void slip.refetch()} />
      ) : slip.data === undefined ? (
        <Skeleton label={words.reading} lines={12} />
      ) : (
        <Paper slip={slip.data} />
      )}
    </main>
  );
}

function Paper({ slip }: { readonly slip: PackingSlip }) {
  const words = useWords().custody.slip;
  const format = useFormat();
  const { engine, subject, vendor, drawn } = slip;
  const facts = [
    [words.from, <HeadOfPaper key="from" of={slip.shop} />],
    [words.to, [vendor.name, vendor.trade, vendor.contact].filter((each) => each !== '').join(', ')],
    [words.of, `${engine.family} ${engine.serial}`],
    [words.what, subject.kind === 'tray' ? `${subject.words}, ${words.tray(subject.name)}` : subject.words],
    [words.sent, `${format.date(slip.sentAt)}, ${slip.sentBy.name}`],
    [words.back, slip.backAt === null ? words.notBack : `${format.date(slip.backAt)}, ${slip.backBy?.name ?? ''}`],
  ] as const;
  return (
    <article className="a4 slip">
      <title>{words.number(slip.number)}</title>
      <div className="frame">
        <header className="sheet-head">
          <div>
            <h1>{words.number(slip.number)}</h1>
            <dl>
              {facts.map(([name, value]) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{value}</dd>
                </div>
              ))}
            </dl>
          </div>
          <Section
            stroke={drawn.cycle}
            cooling={drawn.cooling}
            depth={subject.layer ?? 'closed'}
            size={190}
            name={`${engine.family}, ${subject.words}`}
          />
        </header>
        <section>
          <h2>{words.work}</h2>
          <p className="slip-work">{slip.work}</p>
          <p>
            {words.due}: <b>{slip.dueOn === null ? words.noDue : format.date(`${slip.dueOn}T12:00:00Z`)}</b>
            {slip.late ? <b> ({words.late})</b> : null}
          </p>
          <p>{words.measure}</p>
        </section>
        <section>
          <h2>{words.what}</h2>
          <table>
            <thead>
              <tr>
                <th scope="col">{words.piece}</th>
                <th scope="col" className="n">
                  {words.out}
                </th>
                <th scope="col" className="n">
                  {words.in}
                </th>
              </tr>
            </thead>
            <tbody>
              {slip.lines.map((line, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: lines of a slip are never reordered, and names may repeat
                <tr key={index}>
                  <th scope="row">{line.name}</th>
                  <td className="n num">{line.out ?? words.hidden}</td>
                  <td className="n num">{line.back ?? (slip.backAt === null ? '' : words.hidden)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
        <p className="slip-received">{words.received}</p>
      </div>
    </article>
  );
}
