import { useQuery } from '@tanstack/react-query';
import { useMay, useSession } from '../../app/session.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { FirstOf } from './first-of.tsx';
import { usePackText } from './pack-count.tsx';
import { PriceButton } from './price-dialog.tsx';
import { useShownFirst } from './shown-first.ts';
import { partSupplyQuery } from './stores-queries.ts';

/** How a part is bought: who asks what since when, and when and how many to buy, with the computation. */
export function Supply({ partId }: { readonly partId: string }) {
  const { supply: words } = useWords().stores;
  const { packs: packWords } = useWords();
  const format = useFormat();
  const { currency } = useSession().shop;
  const may = useMay('stores');
  const packText = usePackText();
  const supply = useQuery(partSupplyQuery(partId)).data;
  const { shown, more } = useShownFirst(supply?.prices ?? [], 4);
  if (supply === undefined) return null;
  const { prices, reorder, unit } = supply;
  const ones = (count: number) => packText(count, 1, unit);
  const atATime =
    reorder.orderPacks === null ? null : packText(reorder.orderPacks * reorder.packSize, reorder.packSize, unit);
  const figure = (value: number) => format.number(value, 2);
  return (
    <section>
      <h3>{words.title}</h3>
      <ul className="plain">
        {shown.map(({ vendor, price, packSize, validFrom, theirNumber }) => (
          <li key={`${vendor.id} ${validFrom}`}>
            {words.price(vendor.name, price === null ? null : format.money(price), format.day(validFrom))}
            {packSize === 1 ? '' : `, ${packWords.of(ones(packSize))}`}
            {packSize === 1 || price === null ? '' : `, ${packWords.each(format.moneyEach(price, packSize))}`}
            {theirNumber === '' ? '' : `, ${words.theirs(theirNumber)}`}
          </li>
        ))}
      </ul>
      <FirstOf shown={shown.length} of={prices.length} onMore={more} />
      {may ? <PriceButton part={supply.part} /> : null}
      <details>
        <summary>{words.suggested(reorder.reorderAt, atATime)}</summary>
        <ul className="plain">
          <li>{words.use(reorder.used, reorder.days, figure(reorder.meanPerDay), figure(reorder.deviationPerDay))}</li>
          <li>{words.lead(reorder.leadLines, figure(reorder.leadDays), figure(reorder.leadDeviationDays))}</li>
          <li>{words.safety(format.number(reorder.service * 100), figure(reorder.z), figure(reorder.safetyStock))}</li>
          <li>
            {words.point(
              figure(reorder.meanPerDay),
              figure(reorder.leadDays),
              figure(reorder.safetyStock),
              reorder.reorderAt,
            )}
          </li>
          {reorder.orderQuantity === null ? null : (
            <li>
              {words.quantity(
                reorder.orderQuantity,
                format.number(reorder.holdingShare * 100),
                format.money({ minor: String(reorder.orderCost), currency }),
              )}
            </li>
          )}
          {reorder.packSize === 1 || atATime === null ? null : (
            <li>{words.inPacks(ones(reorder.packSize), atATime)}</li>
          )}
        </ul>
      </details>
    </section>
  );
}
