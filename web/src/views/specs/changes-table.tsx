import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Revision, SheetChanges } from '#contracts/spec-sheets.ts';
import { Failed } from '../../app/view-states.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { changesQuery } from './specs-queries.ts';

/** What two revisions say differently, side by side. */
export function ChangesTable({ revisionId, since }: { readonly revisionId: string; readonly since: string }) {
  const { specs: words } = useWords();
  const changes = useQuery(changesQuery(revisionId, since));
  if (changes.isError && changes.data === undefined) {
    return <Failed error={changes.error} again={() => void changes.refetch()} />;
  }
  if (changes.data === undefined) return <Skeleton label={words.reading} lines={4} />;
  if (changes.data.items.length === 0) return <p>{words.compare.same}</p>;
  return <SideBySide changes={changes.data} />;
}

function SideBySide({ changes }: { readonly changes: SheetChanges }) {
  const { compare: words, dimension, sizeClass: classes } = useWords().specs;
  const { from, to, items } = changes;
  return (
    <>
      <p className="note">{words.count(items.length)}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the table scrolls, so a keyboard has to reach it */}
      <section className="scroll-x" aria-label={words.title} tabIndex={0}>
        <table className="changes">
          <thead>
            <tr>
              <th scope="col">{dimension}</th>
              <th scope="col">{words.what}</th>
              <th scope="col">{words.from(from.number)}</th>
              <th scope="col">{words.from(to.number)}</th>
            </tr>
          </thead>
          <tbody>
            {items.map(({ kind, part, code, name, sizeClass, field, from: before, to: after }) => (
              <tr key={[part, code, sizeClass, field].join('|')}>
                <td>
                  {name || code || words.sheet}
                  {sizeClass === null || sizeClass === 'standard' ? null : (
                    <span className="note line">
                      {classes} {sizeClass}
                    </span>
                  )}
                </td>
                <td>
                  {field || words.whole}
                  <span className="note line">{words.kinds[kind]}</span>
                </td>
                <td className="num">{before === null ? '–' : <del>{before}</del>}</td>
                <td className="num">{after === null ? '–' : <ins>{after}</ins>}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

/** Chooses the other revision, then shows both side by side. */
export function Compare({ of, others }: { readonly of: Revision; readonly others: readonly Revision[] }) {
  const { specs: words } = useWords();
  const [since, setSince] = useState('');
  if (others.length === 0) return null;
  return (
    <section className="no-print compare">
      <h2>{words.compare.title}</h2>
      <Field label={words.compare.with}>
        {(input) => (
          <select {...input} value={since} onChange={({ target }) => setSince(target.value)}>
            <option value="">{words.compare.nobody}</option>
            {others.map(({ id, number, publishedAt }) => (
              <option key={id} value={id}>
                {words.revision(number)}
                {publishedAt === null ? `, ${words.draft}` : ''}
              </option>
            ))}
          </select>
        )}
      </Field>
      {since === '' ? null : <ChangesTable revisionId={of.id} since={since} />}
    </section>
  );
}
