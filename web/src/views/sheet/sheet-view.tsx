import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { BuildSheet } from '#contracts/hand-back.ts';
import { PaperPage } from '../../app/paper-page.tsx';
import { Section } from '../../drawings/section/section.tsx';
import { HeadOfPaper } from '../../kit/head-of-paper.tsx';
import { PaperFacts, PaperHead } from '../../kit/paper-head.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { sheetQuery } from '../counter/counter-queries.ts';
import { marksOf } from './people.ts';
import { PhotosPrinted } from './photo-sheet.tsx';
import { Decisions, Openings, Overrides, ProofsMade, SearchesEnded } from './proof-sections.tsx';
import { ReadingsTable } from './readings-table.tsx';
import { OutsideDone, PartsFitted, RingsAndShims, TorqueDone, WorkedOut } from './work-sections.tsx';
import './sheet.css';

/** The build sheet of one job: on screen as it will be on paper. */
export function SheetView() {
  const { sheet: words } = useWords();
  const { jobId } = useParams({ strict: false });
  const sheet = useQuery({ ...sheetQuery(jobId ?? ''), enabled: jobId !== undefined });
  return (
    <PaperPage
      words={words}
      query={sheet}
      back={
        jobId === undefined ? null : (
          <Link className="btn" to="/counter/$jobId" params={{ jobId }}>
            {words.back}
          </Link>
        )
      }
    >
      {(data) => <Paper sheet={data} />}
    </PaperPage>
  );
}

function Paper({ sheet }: { readonly sheet: BuildSheet }) {
  const { sheet: words } = useWords();
  return (
    <article className="a4">
      <div className="frame">
        {sheet.handedBackAt === null ? <p className="draft">{words.draft}</p> : null}
        <SheetHead sheet={sheet} />
        <section>
          <h2>
            {words.readings} <span className="unit">{words.readingsUnit}</span>
          </h2>
          <ReadingsTable sheet={sheet} />
        </section>
        <Decisions sheet={sheet} />
        <SearchesEnded sheet={sheet} />
        <Overrides sheet={sheet} />
        <div className="two">
          <PartsFitted sheet={sheet} />
          <div>
            <TorqueDone sheet={sheet} />
            <RingsAndShims sheet={sheet} />
            <ProofsMade sheet={sheet} />
            <OutsideDone sheet={sheet} />
            <Openings sheet={sheet} />
          </div>
        </div>
        <WorkedOut sheet={sheet} />
        <PhotosPrinted sheet={sheet} />
        <SmallPrint sheet={sheet} />
        <SheetTitleBlock sheet={sheet} />
      </div>
    </article>
  );
}

function SheetHead({ sheet }: { readonly sheet: BuildSheet }) {
  const { sheet: words } = useWords();
  const format = useFormat();
  const { engine } = sheet;
  const facts = [
    [words.owner, sheet.owner],
    [words.complaint, sheet.complaint],
    [words.wishes, sheet.wishes],
    [words.agreed, sheet.agreed === null ? '' : format.money(sheet.agreed)],
    [words.note, sheet.note],
  ] as const;
  return (
    <PaperHead
      title={words.title}
      facts={facts.filter(([, value]) => value !== '')}
      lines={
        <>
          <p>
            <b>{words.engine(engine.family, engine.serial)}</b>, {words.hours(format.decimal(sheet.hours))}
          </p>
          <p>
            {words.job(sheet.jobNumber, sheet.visit)}, {words.takenIn(format.date(sheet.takenInAt))}
            {sheet.handedBackAt === null ? '' : `, ${words.handedBack(format.date(sheet.handedBackAt))}`}
          </p>
        </>
      }
      drawing={<Section stroke={engine.cycle} cooling={engine.cooling} size={190} name={engine.family} />}
    />
  );
}

const ruleNames = ['iso-14253-1-2017', 'iso-14253-1-1998', 'simple'] as const;

function SmallPrint({ sheet }: { readonly sheet: BuildSheet }) {
  const { sheet: words } = useWords();
  const rules = ruleNames.filter((name) => sheet.findings.some(({ rule }) => rule === name));
  return (
    <div className="small-print">
      <p>
        {rules.map((rule) => `${words.rules[rule]}. `)}
        {words.specSheet(sheet.revision.family, sheet.revision.number)}{' '}
        {sheet.revision.moves.map(({ from, to, by, reason }) => `${words.moved(from, to, by, reason)} `)}
        {sheet.shop.figuresInvented ? <b>{words.invented}</b> : null}
      </p>
      <p>
        {words.people}: {sheet.people.map(({ name, initials }) => `${name} (${initials})`).join(', ')}.
      </p>
      <p>{words.caution}</p>
    </div>
  );
}

/** Marks over facts, ruled like the foot of a drawing. */
function SheetTitleBlock({ sheet }: { readonly sheet: BuildSheet }) {
  const { sheet: words } = useWords();
  const format = useFormat();
  const marks = marksOf(sheet);
  const day = sheet.handedBackAt === null ? words.notHandedBack : format.date(sheet.handedBackAt);
  const facts = [
    [words.shop, <HeadOfPaper key="shop" of={sheet.shop} />],
    [words.engineName, `${sheet.engine.family} ${sheet.engine.serial}`],
    [words.date, day],
    [words.sheet, words.sheetOf(sheet.jobNumber)],
  ] as const;
  return (
    <dl className="sheet-foot">
      {(['measured', 'built', 'proved', 'released'] as const).map((mark) => (
        <div key={mark} className="mark">
          <dt>{words.marks[mark]}</dt>
          <dd>{marks[mark].join(', ')}</dd>
        </div>
      ))}
      <PaperFacts facts={facts} />
    </dl>
  );
}
