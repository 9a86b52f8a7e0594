import { Link } from '@tanstack/react-router';
import type { EnginePage } from '#contracts/engines.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';

type Tray = EnginePage['trays'][number];

function Pieces({ tray }: { readonly tray: Tray }) {
  const words = useWords().engine;
  const loose = tray.pieces.flatMap(({ id, name, off, here }) =>
    off === null || here === null ? [{ id, text: name }] : here > 0 ? [{ id, text: words.piece(here, name) }] : [],
  );
  const missing = tray.pieces.reduce(
    (sum, { off, expected }) => sum + (off === null || expected === null ? 0 : Math.max(0, expected - off)),
    0,
  );
  if (tray.pieces.length === 0) return tray.alone ? words.alone : '–';
  return (
    <>
      {loose.length === 0 ? <span className="note">{words.allBack}</span> : loose.map(({ text }) => text).join(', ')}
      {missing === 0 ? null : <b className="hot line">{words.missing(missing)}</b>}
    </>
  );
}

/** Each tray, what still lies in it, and who answers for it. */
export function TraysSection({ engineId, trays }: { readonly engineId: string; readonly trays: EnginePage['trays'] }) {
  const words = useWords().engine;
  const format = useFormat();
  return (
    <section className="page-part" aria-labelledby="trays">
      <h2 id="trays" tabIndex={-1}>
        {words.trays}
      </h2>
      <LabelButton
        labels={[
          { kind: 'engine', id: engineId },
          ...trays.filter(({ emptiedAt }) => emptiedAt === null).map(({ id }) => ({ kind: 'tray' as const, id })),
        ]}
      />
      <Link className="btn" to="/custody" search={{ engineId }}>
        {words.whoHeld}
      </Link>
      {trays.length === 0 ? (
        <p className="note">{words.noTrays}</p>
      ) : (
        <div className="table-room">
          <table className="trays-table">
            <thead>
              <tr>
                <th>{words.tray}</th>
                <th>{words.holds}</th>
                <th>{words.holder}</th>
              </tr>
            </thead>
            <tbody>
              {trays.map((tray) => (
                <tr key={tray.id}>
                  <td>
                    <b className="num nowrap">
                      {tray.emptiedAt === null ? (
                        <Link to="/trays/$trayId" params={{ trayId: tray.id }}>
                          {tray.label}
                        </Link>
                      ) : (
                        tray.label
                      )}
                    </b>
                    <span className="note line">{tray.name}</span>
                  </td>
                  <td>
                    <Pieces tray={tray} />
                  </td>
                  <td>
                    {tray.emptiedAt !== null ? (
                      <span className="note">{words.emptied(format.since(tray.emptiedAt))}</span>
                    ) : tray.holder === null ? (
                      <b className="hot">{words.nobodyHolds}</b>
                    ) : (
                      <>
                        {words.heldBy(
                          tray.place?.name === tray.holder.name ? null : (tray.place?.name ?? null),
                          tray.holder.name,
                        )}
                        <span className="note num line">{words.since(format.since(tray.holder.since))}</span>
                      </>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
