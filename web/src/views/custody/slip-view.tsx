import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { PackingSlip } from '#contracts/custody-past.ts';
import { PaperPage } from '../../app/paper-page.tsx';
import { Section } from '../../drawings/section/section.tsx';
import { HeadOfPaper } from '../../kit/head-of-paper.tsx';
import { PaperHead } from '../../kit/paper-head.tsx';
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
    <PaperPage
      words={words}
      query={slip}
      back={
        <Link className="btn" to="/bench">
          {words.toBench}
        </Link>
      }
    >
      {(data) => <Paper slip={data} />}
    </PaperPage>
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
        <PaperHead
          title={words.number(slip.number)}
          facts={facts}
          drawing={
            <Section
              stroke={drawn.cycle}
              cooling={drawn.cooling}
              depth={subject.layer ?? 'closed'}
              size={190}
              name={`${engine.family}, ${subject.words}`}
            />
          }
        />
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
