import type { PackingList } from '#contracts/boxes.ts';
import { Section } from '../../drawings/section/section.tsx';
import { HeadOfPaper } from '../../kit/head-of-paper.tsx';
import { type PaperFact, PaperHead } from '../../kit/paper-head.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type Part = { readonly list: PackingList };

/** The packing list that the owner signs for; until the engine has gone its counts are left to be counted. */
export function BoxesPaper({ list }: Part) {
  const { boxes: words } = useWords();
  return (
    <article className="a4 slip">
      <title>{words.number(list.jobNumber)}</title>
      <div className="frame">
        {list.given === null ? <p className="draft">{words.draft}</p> : null}
        <Head list={list} />
        <section>
          <h2>{words.cautions}</h2>
          <p className="slip-work">{words.notAssembled}</p>
          <p>{words.notSet}</p>
          <p>{words.notChecked}</p>
        </section>
        <Missing list={list} />
        {list.obligations.length === 0 ? null : (
          <section>
            <h2>{words.open}</h2>
            <ul>
              {list.obligations.map((each) => (
                <li key={each}>{each}</li>
              ))}
            </ul>
          </section>
        )}
        {list.boxes.length === 0 ? <p>{words.nothing}</p> : null}
        {list.boxes.map((box) => (
          <Box key={box.tray?.id ?? ''} box={box} given={list.given !== null} />
        ))}
        <p className="slip-received">{words.signed}</p>
      </div>
    </article>
  );
}

function Head({ list }: Part) {
  const { boxes: words } = useWords();
  const format = useFormat();
  const { engine, given } = list;
  const facts: readonly PaperFact[] = [
    [words.from, <HeadOfPaper key="from" of={list.shop} />],
    [words.to, list.owner],
    [words.of, `${engine.family} ${engine.serial}`],
    ...(given === null
      ? []
      : ([
          [words.given, `${format.date(given.at)}, ${given.by.name}`],
          [words.cause, `${words.causes[given.cause]}. ${given.reason}`],
          ...(given.note === '' ? [] : ([[words.note, given.note]] as const)),
        ] as const)),
  ];
  return (
    <PaperHead
      title={words.number(list.jobNumber)}
      facts={facts}
      drawing={
        <Section
          stroke={engine.cycle}
          cooling={engine.cooling}
          depth={list.depth ?? 'closed'}
          size={190}
          name={engine.family}
        />
      }
    />
  );
}

function Missing({ list }: Part) {
  const { boxes: words } = useWords();
  if (list.missing.length === 0) return null;
  return (
    <section>
      <h2>{words.missing}</h2>
      <ul>
        {list.missing.map(({ name, count, inside }) => (
          <li key={name}>
            {words.missingLine(count, name)}
            {inside === 0 ? null : <b className="hot">, {words.inside(inside)}</b>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Box({ box, given }: { readonly box: PackingList['boxes'][number]; readonly given: boolean }) {
  const { boxes: words } = useWords();
  return (
    <section>
      <h2>{box.tray === null ? words.beside : words.tray(box.tray.name)}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.piece}</th>
            <th scope="col" className="n">
              {words.pieces}
            </th>
          </tr>
        </thead>
        <tbody>
          {box.lines.map(({ pieceId, name, count }) => (
            <tr key={pieceId}>
              <th scope="row">{name}</th>
              <td className="n num">{given ? count : ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
