import type { FamilyWear } from '#contracts/engines.ts';
import { type Print, printOf, roundedDifference } from '#contracts/figures.ts';
import { rateAmong, ratesOf, rateWords, sideOfWear } from '#domain/metrology/family-rates.ts';
import type { WearPoint } from '#domain/metrology/wear.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { type FamilyPoint, findFamilyPoints } from './family-queries.ts';

const grouped = <Row>(rows: readonly Row[], keyOf: (row: Row) => string): ReadonlyMap<string, readonly Row[]> => {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const group = groups.get(keyOf(row));
    if (group === undefined) groups.set(keyOf(row), [row]);
    else group.push(row);
  }
  return groups;
};

const pointsOf = (rows: readonly FamilyPoint[]): readonly WearPoint[] =>
  rows.map(({ partMinutes, value }) => ({ hours: partMinutes / 60, value }));

/** How one dimension of what is fitted wears, among the parts of other engines of the family. */
function standingOf(rows: readonly FamilyPoint[], engineId: string): readonly FamilyWear['items'][number][] {
  const parts = grouped(rows, ({ fittedPartId }) => fittedPartId);
  const rates = ratesOf(new Map([...parts].map(([key, of]) => [key, pointsOf(of)])));
  const ownPart = rows.find((row) => row.engineId === engineId && row.fittedNow);
  const own = rates.find(({ engine }) => engine === ownPart?.fittedPartId);
  if (own === undefined || ownPart === undefined) return [];
  const ofOthers = new Set(rows.filter((row) => row.engineId !== engineId).map(({ fittedPartId }) => fittedPartId));
  const among = rateAmong(
    own,
    rates.filter(({ engine }) => ofOthers.has(engine)),
    sideOfWear(rates),
  );
  if (among === undefined) return [];
  const print: Print = { ...printOf(ownPart), decimals: ownPart.decimals + 1 };
  const per100 = (rate: number) => roundedDifference(rate * 100, print);
  const { family, standing, quantile } = among;
  return [
    {
      dimension: ownPart.dimension,
      fittedPartId: ownPart.fittedPartId,
      perHundredHours: per100(own.rate),
      others: family.rates.length,
      median: per100(family.median),
      lowerQuartile: per100(family.quartiles.lower),
      upperQuartile: per100(family.quartiles.upper),
      slowerShare: quantile,
      standing,
      words: rateWords(among, (rate) => {
        const { value, unit } = per100(rate);
        return `${value} ${unit}`;
      }),
    },
  ];
}

/** Where each worn dimension of an engine sits among its family; nothing of those measured too seldom. */
export async function familyWear(sql: Sql, engineId: string): Promise<FamilyWear> {
  const rows = found(await findFamilyPoints(sql, engineId), 'such engine');
  return {
    items: [...grouped(rows, ({ dimension }) => dimension).values()].flatMap((of) => standingOf(of, engineId)),
  };
}
