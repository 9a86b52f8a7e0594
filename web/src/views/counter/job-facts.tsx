import type { EngineStanding } from '#contracts/floor.ts';
import type { BuildSheet } from '#contracts/hand-back.ts';
import type { Job } from '#contracts/intake.ts';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';

interface FactsProps {
  readonly job: Job;
  readonly sheet: BuildSheet | undefined;
  readonly standing: EngineStanding | undefined;
}

/** The head of a job at the counter: its engine as it stands, and the facts in a title block. */
export function JobFacts({ job, sheet, standing }: FactsProps) {
  const { counter } = useWords();
  const words = counter.facts;
  const format = useFormat();
  const family = standing?.family.name ?? sheet?.engine.family ?? '';
  const serial = standing?.serial ?? sheet?.engine.serial ?? '';
  const holder = standing?.holder;
  const facts = [
    {
      name: words.engine,
      wide: true,
      value: (
        <h1>
          {family} <span className="num">{serial}</span>
        </h1>
      ),
    },
    { name: words.job, value: <span className="num">{job.number}</span> },
    { name: words.owner, value: sheet?.owner ?? standing?.owner.name ?? '' },
    { name: words.hours, value: <span className="num">{words.hoursOf(format.decimal(job.hours))}</span> },
    { name: words.takenIn, value: words.takenInBy(format.since(job.takenInAt), job.takenInBy.name) },
    job.handedBackAt === null
      ? {
          name: words.held,
          value: holder
            ? words.heldBy(holder.kind === 'bay' ? null : (standing?.place?.name ?? null), holder.name)
            : '',
        }
      : { name: words.handedBack, value: format.dateTime(job.handedBackAt) },
    {
      name: words.agreed,
      value: sheet?.agreed === null || sheet === undefined ? words.notAgreed : format.money(sheet.agreed),
    },
  ];
  return (
    <header className="job-head">
      {standing === undefined ? null : (
        <EngineSection family={standing.family} opening={standing.opening} size={132} name={family} />
      )}
      <TitleBlock facts={facts} columns={4} />
    </header>
  );
}
