import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { OpenVoices } from '#contracts/opening-rules.ts';
import { read } from '../../app/api.ts';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type Raised = OpenVoices['items'][number];

/** Time passes without an event, so this is asked again each minute. */
const EVERY_MINUTE = 60_000;
/** The worst are told here; the others stand in the list of open engines. */
const MOST = 3;

function RaisedVoice({ raised }: { readonly raised: Raised }) {
  const words = useWords().tally.voices;
  const format = useFormat();
  const bench = useMay('bench');
  const writing = useWrite();
  const { engine, openingId, seen, voices } = raised;
  const uncovered = voices.some(({ kind }) => kind.startsWith('uncovered'));
  return (
    <li>
      <div>
        <Link to="/engines/$engineId" params={{ engineId: engine.id }}>
          <b className="num">{engine.serial}</b>
        </Link>
        {voices.map(({ kind, words: said }) => (
          <span key={kind} className="line">
            {said}
          </span>
        ))}
        <span className="note line">{words.seen(seen.by.name, format.since(seen.at))}</span>
      </div>
      {bench && uncovered ? (
        <Button
          disabled={writing.busy}
          onClick={() => writing.write({ path: `/openings/${openingId}/looks`, body: { covered: true } })}
        >
          {words.look}
        </Button>
      ) : null}
    </li>
  );
}

/** Open engines that raise their voice: uncovered when the shift ended, open for too long, something may be inside. */
export function Voices() {
  const words = useWords().tally.voices;
  const { data } = useQuery({
    queryKey: ['voices'],
    queryFn: ({ signal }) => read<OpenVoices>('/openings/voices', signal),
    refetchInterval: EVERY_MINUTE,
  });
  const items = data?.items ?? [];
  if (items.length === 0) return null;
  return (
    <section className="voices" aria-labelledby="voices">
      <h2 id="voices">
        {words.title} <span className="num">{items.length}</span>
      </h2>
      <ul>
        {items.slice(0, MOST).map((raised) => (
          <RaisedVoice key={raised.openingId} raised={raised} />
        ))}
      </ul>
      {items.length > MOST ? <a href="#open">{words.more(items.length - MOST)}</a> : null}
    </section>
  );
}
