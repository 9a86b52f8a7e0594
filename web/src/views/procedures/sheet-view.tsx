import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { Failed } from '../../app/view-states.tsx';
import { Button, buttonClass } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { procedureQuery, shelfQuery } from './procedures-queries.ts';
import { StepsInFull } from './steps-in-full.tsx';
import './procedures.css';

/** A procedure on paper, A4: boxes to tick with gloves on, cautions beside the step they belong to. */
export function ProcedureSheetView() {
  const { versionId } = useParams({ from: '/procedure-sheets/$versionId' });
  const { procedures: words } = useWords();
  const format = useFormat();
  const document = useQuery(procedureQuery(versionId));
  const shelf = useQuery(shelfQuery).data;
  const version = shelf?.items.flatMap(({ versions }) => versions).find(({ id }) => id === versionId);
  if (document.data === undefined) {
    return (
      <main className="procedure-sheet">
        {document.isError ? (
          <Failed error={document.error} again={() => void document.refetch()} />
        ) : (
          <Skeleton label={words.reading} lines={12} />
        )}
      </main>
    );
  }
  const { body } = document.data;
  return (
    <main className="procedure-sheet">
      <div className="acts no-print">
        <Button kind="main" onClick={() => window.print()}>
          {words.print}
        </Button>
        <Link className={buttonClass()} to="/procedures/$versionId" params={{ versionId }}>
          {words.back}
        </Link>
      </div>
      <h1>{body.name}</h1>
      <TitleBlock
        facts={[
          { name: words.facts.code, value: body.code },
          {
            name: words.facts.version,
            value:
              version === undefined
                ? ''
                : `${version.number}, ${version.publishedAt === null ? words.draft : format.date(version.publishedAt)}`,
          },
          { name: words.facts.serial, value: ' ' },
          { name: words.facts.job, value: ' ' },
          { name: words.facts.doneBy, value: ' ' },
          { name: words.facts.lookedAtBy, value: ' ' },
        ]}
        columns={6}
      />
      {body.note === '' ? null : <p className="sheet-note">{body.note}</p>}
      <StepsInFull document={body} versionId={versionId} />
    </main>
  );
}
