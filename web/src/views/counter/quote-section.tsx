import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Quote } from '#contracts/counter.ts';
import { Failed } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { AnswerForm } from './answer-form.tsx';
import { draftQuery, quotesQuery } from './counter-queries.ts';
import { QuoteEditor } from './quote-editor.tsx';

interface QuoteProps {
  readonly jobId: string;
  readonly open: boolean;
  readonly owner: string;
}

/** The offer and the owner's answer. */
export function QuoteSection({ jobId, open, owner }: QuoteProps) {
  const { quote: words } = useWords().counter;
  const quotes = useQuery(quotesQuery(jobId));
  const [writing, setWriting] = useState(false);
  const [newest, ...earlier] = quotes.data?.items ?? [];
  return (
    <section className="panel" id="quote">
      <h2>{words.title}</h2>
      {quotes.isError ? <Failed error={quotes.error} again={() => void quotes.refetch()} /> : null}
      {quotes.isSuccess && newest === undefined && !writing ? <p className="note">{words.none}</p> : null}
      {newest === undefined || writing ? null : (
        <>
          <QuoteShown quote={newest} />
          {open && newest.answer === null ? <AnswerForm key={newest.id} quote={newest} owner={owner} /> : null}
        </>
      )}
      {open && quotes.isSuccess ? (
        writing ? (
          <Drafted jobId={jobId} onDone={() => setWriting(false)} />
        ) : (
          <div>
            <Button kind={newest === undefined ? 'main' : 'plain'} onClick={() => setWriting(true)}>
              {newest === undefined ? words.draft : words.newOne}
            </Button>
          </div>
        )
      ) : null}
      {earlier.length === 0 ? null : (
        <details>
          <summary>{words.earlier(earlier.length)}</summary>
          {earlier.map((quote) => (
            <QuoteShown key={quote.id} quote={quote} />
          ))}
        </details>
      )}
    </section>
  );
}

function Drafted({ jobId, onDone }: { readonly jobId: string; readonly onDone: () => void }) {
  const { quote: words } = useWords().counter;
  const draft = useQuery(draftQuery(jobId));
  if (draft.isError) return <Failed error={draft.error} again={() => void draft.refetch()} />;
  if (draft.data === undefined) return <Skeleton label={words.drafting} lines={5} />;
  return <QuoteEditor draft={draft.data} onDone={onDone} />;
}

/** One quote as it was sent, with what was said to it. */
function QuoteShown({ quote }: { readonly quote: Quote }) {
  const { quote: words, answer } = useWords().counter;
  const format = useFormat();
  const said = quote.answer;
  return (
    <article className="quote-shown">
      <h3>
        {words.number(quote.number)}{' '}
        <span className="note">
          {words.sent(format.since(quote.sentAt), quote.sentBy.name)}
          {quote.replaced ? `, ${words.replaced}` : ''}
        </span>
      </h3>
      <table>
        <thead>
          <tr>
            <th>{words.words}</th>
            <th className="n">{words.quantity}</th>
            <th className="n each">{words.each(quote.total.currency)}</th>
            <th className="n">{words.amount}</th>
          </tr>
        </thead>
        <tbody>
          {quote.lines.map((line, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a sent quote never changes
            <tr key={index}>
              <td>
                {line.words} <span className="note">{words.kinds[line.kind]}</span>
              </td>
              <td className="n">{line.quantity}</td>
              <td className="n each">{format.money(line.each)}</td>
              <td className="n">{format.money(line.amount)}</td>
            </tr>
          ))}
          <tr className="sum">
            <td colSpan={2}>
              <b>{words.sum}</b>
            </td>
            <td className="each" />
            <td className="n">
              <b>{format.money(quote.total)}</b>
            </td>
          </tr>
        </tbody>
      </table>
      {quote.note === '' ? null : <p className="note">{quote.note}</p>}
      {said === null ? null : (
        <p role="status">
          <b>
            {said.yes && said.sum !== null
              ? answer.saidYes(said.saidBy, format.money(said.sum), answer.hows[said.how])
              : answer.saidNo(said.saidBy, answer.hows[said.how])}
          </b>{' '}
          {said.note} <span className="note">{answer.taken(said.takenBy.name, format.since(said.takenAt))}</span>
        </p>
      )}
    </article>
  );
}
