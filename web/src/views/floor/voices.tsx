import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { OpenVoices } from '#contracts/opening-rules.ts';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { voicesQuery } from './voices-query.ts';

type Raised = OpenVoices['items'][number];

/** Open for long, but covered and with nothing missing: told by the list of open engines, so only counted here. */
const isGrave = ({ voices }: Raised): boolean => voices.some(({ kind }) => kind !== 'open-too-long');

function RaisedVoice({ raised }: { readonly raised: Raised }) {
  const words = useWords().tally.voices;
  const format = useFormat();
  const bench = useMay('bench');
  const writing = useWrite();
  const { engine, openingId, seen, voices } = raised;
  const uncovered = voices.some(({ kind }) => kind.startsWith('uncovered'));
  const [worst] = voices;
  return (
    <li>
      <Link to="/engines/$engineId" params={{ engineId: engine.id }}>
        <b className="num">{engine.serial}</b>
      </Link>
      <p>
        {worst?.words} <span className="note">{words.seen(seen.by.name, format.since(seen.at))}</span>
      </p>
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
  const { data } = useQuery(voicesQuery);
  const items = data?.items ?? [];
  const grave = items.filter(isGrave);
  const long = items.length - grave.length;
  if (items.length === 0) return null;
  return (
    <section className={grave.length > 0 ? 'voices grave' : 'voices'} aria-labelledby="voices">
      <h2 id="voices">{grave.length > 0 ? words.grave(grave.length) : words.long(long)}</h2>
      <ul>
        {grave.map((raised) => (
          <RaisedVoice key={raised.openingId} raised={raised} />
        ))}
      </ul>
      {long > 0 ? <a href="#open">{grave.length > 0 ? words.alsoLong(long) : words.which}</a> : null}
    </section>
  );
}
