import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { WorkedFigure, WorkedFigures } from '#contracts/worked-figures.ts';
import { read } from '../../app/api.ts';
import { ReasonDialog } from '../../app/reason-dialog.tsx';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { KeptFigures, useKindName } from '../loose-bench/kept-figures.tsx';

/** What was reckoned at the loose bench and kept with this job; a mistaken one is struck, never changed. */
export function WorkedSection({ jobId, open }: { readonly jobId: string; readonly open: boolean }) {
  const words = useWords().looseBench.keep;
  const mayStrike = useMay('bench') && open;
  const [striking, setStriking] = useState<WorkedFigure | null>(null);
  const kept = useQuery({
    queryKey: ['worked-figures', jobId],
    queryFn: ({ signal }) => read<WorkedFigures>(`/jobs/${jobId}/worked-figures`, signal),
    meta: { follows: { jobId } },
  });
  const items = kept.data?.items ?? [];
  if (items.length === 0) return null;
  return (
    <section className="page-part" aria-labelledby="worked">
      <h2 id="worked">{words.section}</h2>
      <ol className="worked-lines">
        {items.map((figure) => (
          <WorkedLine key={figure.id} figure={figure} strike={mayStrike ? setStriking : undefined} />
        ))}
      </ol>
      {striking === null ? null : <StrikeDialog figure={striking} onClose={() => setStriking(null)} />}
    </section>
  );
}

interface LineProps {
  readonly figure: WorkedFigure;
  readonly strike: ((figure: WorkedFigure) => void) | undefined;
}

function WorkedLine({ figure, strike }: LineProps) {
  const words = useWords().looseBench.keep;
  const format = useFormat();
  const named = useKindName();
  const { kind, note, by, at, struck } = figure;
  return (
    <li>
      <div>
        <b>{named(kind)}</b>
        {note === '' ? '' : `: ${note}`}
        <span className="note line">{words.keptBy(by.name, format.since(at))}</span>
        {struck === null ? (
          <KeptFigures {...figure} />
        ) : (
          <>
            <s>
              <KeptFigures {...figure} />
            </s>
            <span className="note line">{words.struckBy(struck.by.name, format.since(struck.at), struck.reason)}</span>
          </>
        )}
      </div>
      {struck === null && strike !== undefined ? (
        <Button onClick={() => strike(figure)} aria-label={words.strikeOne(named(kind))}>
          {words.strike}
        </Button>
      ) : null}
    </li>
  );
}

function StrikeDialog({ figure, onClose }: { readonly figure: WorkedFigure; readonly onClose: () => void }) {
  const { engine, looseBench } = useWords();
  const words = looseBench.keep;
  const named = useKindName();
  return (
    <ReasonDialog
      title={words.strikeOne(named(figure.kind))}
      label={words.reason}
      most={300}
      go={words.strike}
      cancel={engine.cancel}
      path={`/worked-figures/${figure.id}/strike`}
      bodyOf={(reason) => ({ reason })}
      onClose={onClose}
    />
  );
}
