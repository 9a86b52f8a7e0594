import type { HandoverTray } from '#contracts/custody.ts';
import { useWords } from '../../words/words.tsx';
import { LinePlace } from './line-place.tsx';

/** Tray by tray, what the receiver counts. Before that, the giver's number is not on paper either, whoever prints it. */
export function SheetOfTrays({ trays }: { readonly trays: readonly HandoverTray[] }) {
  const { sheet: words } = useWords().handover;
  if (trays.length === 0) return <p>{words.noTrays}</p>;
  return (
    <>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.tray}</th>
            <th scope="col">{words.piece}</th>
            <th scope="col" className="n">
              {words.given}
            </th>
            <th scope="col" className="n">
              {words.counted}
            </th>
          </tr>
        </thead>
        {trays.map((tray) => (
          <tbody key={tray.trayId}>
            {tray.lines.map((line, index) => {
              const differs = tray.counted && line.counted !== line.given;
              return (
                <tr key={line.lineId} className={differs ? 'differs' : undefined}>
                  {index === 0 ? (
                    <th scope="rowgroup" rowSpan={tray.lines.length}>
                      <span className="num">{tray.label}</span> {tray.name}
                    </th>
                  ) : null}
                  <td>
                    {line.name} <LinePlace line={tray.counted ? line : { ...line, places: null }} />
                  </td>
                  <td className="n num">{tray.counted ? line.given : ''}</td>
                  <td className="n num">{tray.counted ? line.counted : <span className="to-write" />}</td>
                </tr>
              );
            })}
          </tbody>
        ))}
      </table>
      {trays.every(({ counted }) => counted) ? null : <p>{words.blind}</p>}
    </>
  );
}
