import type { Part } from '#contracts/parts.ts';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import type { SizeRow } from './entries.ts';

type Dimension = SpecSheetDocument['dimensions'][number];

/** The sheet's clearance of piston and bore: which two dimensions it is the difference of. */
function boreAndPiston(sheet: SpecSheetDocument): { readonly bore: Dimension; readonly piston: Dimension } | undefined {
  const byCode = new Map(sheet.dimensions.map((dimension) => [dimension.code, dimension]));
  for (const { method, minuend, subtrahend } of sheet.dimensions) {
    const [bore, piston] = [byCode.get(minuend ?? ''), byCode.get(subtrahend ?? '')];
    if (method === 'difference' && piston?.place === 'piston' && bore !== undefined && bore.place !== 'piston') {
      return { bore, piston };
    }
  }
  return undefined;
}

/** Its band as new in a size class, or in the standard one where the class is only the piston's. */
function asNew(dimension: Dimension, sizeClass: string) {
  const of = (wanted: string) => dimension.limits.find((limit) => limit.sizeClass === wanted)?.standard;
  return of(sizeClass) ?? of('standard');
}

/** A line for each size class that the catalogue has a piston of, with how many of it are free on the shelves. */
export function sizesInStock(
  sheet: SpecSheetDocument,
  pistons: readonly Part[],
  free: (count: number) => string,
): { readonly rows: readonly SizeRow[]; readonly unit: string } {
  const measured = boreAndPiston(sheet);
  const classes = new Map<string, number>();
  for (const { sizeClass, available, retired } of pistons) {
    if (retired) continue;
    const name = sizeClass ?? 'standard';
    classes.set(name, (classes.get(name) ?? 0) + available);
  }
  if (measured === undefined) return { rows: [], unit: 'mm' };
  const { bore, piston } = measured;
  const rows = [...classes].flatMap(([sizeClass, available]): SizeRow[] => {
    const [cylinder, skirt] = [asNew(bore, sizeClass), asNew(piston, sizeClass)];
    if (!cylinder?.low) return [];
    return [
      {
        name: `${sizeClass}, ${free(available)}`,
        bore: cylinder.low.value,
        boreMost: cylinder.high?.value ?? '',
        pistonLeast: skirt?.low?.value ?? '',
        pistonMost: skirt?.high?.value ?? '',
      },
    ];
  });
  return { rows: rows.sort((a, b) => Number(a.bore) - Number(b.bore)), unit: bore.unit };
}
