import type { ExpectedLine } from '#contracts/deliveries.ts';
import { useSession } from '../../app/session.tsx';
import { useFormat } from '../../words/format.ts';
import { minorDigits } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';
import { type Entry, landedOf } from './delivery-entry.ts';
import { Scrolled } from './scrolled.tsx';

interface SpreadProps {
  readonly came: readonly { readonly line: ExpectedLine; readonly entry: Entry }[];
  readonly freight: bigint;
}

/** What each line costs with its share of the freight, and how that share comes about. */
export function FreightSpread({ came, freight }: SpreadProps) {
  const { receive: words } = useWords().storesDesks;
  const { currency } = useSession().shop;
  const format = useFormat();
  const landed = landedOf(came, freight, currency);
  if (landed.length === 0) return null;
  const money = (minor: bigint) => format.money({ minor: String(minor), currency });
  const all = landed.reduce((sum, { goods }) => sum + goods, 0n);
  // Two places more than money has, so that the rounding can be followed.
  const digits = minorDigits(currency);
  const exact = (goods: bigint) =>
    format.number(Number((freight * goods * 100n) / (all === 0n ? 1n : all)) / 10 ** (digits + 2), digits + 2);
  return (
    <section className="spread">
      <h3>{words.spread}</h3>
      <Scrolled label={words.spread}>
        <table>
          <thead>
            <tr>
              <th>{words.spreadPart}</th>
              <th className="n">{words.spreadGoods}</th>
              <th className="n">{words.spreadShare}</th>
              <th className="n">{words.spreadLanded}</th>
              <th className="n">{words.spreadEach}</th>
            </tr>
          </thead>
          <tbody>
            {landed.map(({ line, quantity, goods, share }) => (
              <tr key={line.id}>
                <td>
                  {quantity} × {line.part.name}
                </td>
                <td className="n" data-label={words.spreadGoods}>
                  {money(goods)}
                </td>
                <td className="n" data-label={words.spreadShare}>
                  {freight === 0n || all === 0n ? null : (
                    <span className="note nowrap">
                      {words.spreadHow(money(freight), money(goods), money(all), exact(goods))}{' '}
                    </span>
                  )}
                  <b>{money(share)}</b>
                </td>
                <td className="n" data-label={words.spreadLanded}>
                  <b>{money(goods + share)}</b>
                </td>
                <td className="n" data-label={words.spreadEach}>
                  {money((2n * (goods + share) + BigInt(quantity)) / (2n * BigInt(quantity)))}
                </td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr>
              <td>{words.together}</td>
              <td className="n" data-label={words.spreadGoods}>
                {money(all)}
              </td>
              <td className="n" data-label={words.spreadShare}>
                {money(freight)}
              </td>
              <td className="n" data-label={words.spreadLanded}>
                <b>{money(all + freight)}</b>
              </td>
              <td />
            </tr>
          </tfoot>
        </table>
      </Scrolled>
      {freight > 0n ? <p className="note">{all === 0n ? words.spreadEqual : words.spreadRule}</p> : null}
    </section>
  );
}
