import type { LooseShims } from '#contracts/loose-shims.ts';
import { blank, linesOf, quantityOf } from './typed.ts';
import type { Keyed } from './use-keyed.ts';

export const valveNumbers = Array.from({ length: 12 }, (_, index) => index + 1);
export const namedValves = (keyed: Keyed) => valveNumbers.filter((at) => !blank(keyed[`valve${at}`]));
export const sideOf = (keyed: Keyed, at: number): 'intake' | 'exhaust' =>
  keyed[`side${at}`] === 'exhaust' ? 'exhaust' : 'intake';

const sides = ['intake', 'exhaust'] as const;
const perSide = ['Wanted', 'Low', 'High'] as const;

/** "2.300 3" three of a thickness, "2.300" one, "buy 2.325" as many as are wanted; a line each. */
function storedOf(keyed: Keyed): LooseShims['stored'] {
  return linesOf(keyed.shims).map(({ line, cells }) => {
    const bought = /^buy$/i.test(cells[0] ?? '');
    const [thickness = '?', count] = bought ? cells.slice(1) : cells;
    return {
      from: bought ? ('buy' as const) : ('bin' as const),
      name: `${thickness} mm (${line})`,
      thickness: quantityOf(thickness, 'mm'),
      ...(count === undefined ? {} : { count: Number(count) }),
      ...(blank(keyed.uncertainty) ? {} : { uncertainty: quantityOf(keyed.uncertainty, 'mm') }),
    };
  });
}

/** Names of what is still empty, by field. */
export function missingOf(keyed: Keyed): readonly string[] {
  const valves = namedValves(keyed);
  const used = sides.filter((side) => valves.some((at) => sideOf(keyed, at) === side));
  const fields = [
    'diameter',
    'thinnest',
    'thickest',
    ...used.flatMap((side) => perSide.map((part) => `${side}${part}`)),
    ...valves.flatMap((at) => [`low${at}`, `fitted${at}`]),
  ];
  return valves.length === 0 ? ['valve1'] : fields.filter((field) => blank(keyed[field]));
}

/** What is asked of the loose bench; a thinnest blade that did not go left out: even the thickest went in. */
export function headAsked(keyed: Keyed): LooseShims | undefined {
  if (missingOf(keyed).length > 0) return undefined;
  const mm = (name: string) => quantityOf(keyed[name], 'mm');
  return {
    heads: [
      {
        name: 'head',
        shimDiameter: mm('diameter'),
        makersSizes: { low: mm('thinnest'), high: mm('thickest') },
        valves: namedValves(keyed).map((at) => {
          const side = sideOf(keyed, at);
          return {
            valve: keyed[`valve${at}`]?.trim() ?? '',
            lash: {
              low: mm(`low${at}`).value,
              high: blank(keyed[`high${at}`]) ? null : mm(`high${at}`).value,
              unit: 'mm',
            },
            wanted: mm(`${side}Wanted`),
            range: { low: mm(`${side}Low`), high: mm(`${side}High`) },
            fitted: {
              thickness: mm(`fitted${at}`),
              ...(blank(keyed.uncertainty) ? {} : { uncertainty: mm('uncertainty') }),
            },
          };
        }),
      },
    ],
    stored: storedOf(keyed),
  };
}

/** Which field of the pane a place of the body came from, for what the server refuses. */
export function fieldOf(pointer: string, keyed: Keyed): string | undefined {
  const [, top, , part, index, rest, end] = pointer.split('/');
  if (top === 'stored') return 'shims';
  if (part === 'shimDiameter') return 'diameter';
  if (part === 'makersSizes') return index === 'high' ? 'thickest' : 'thinnest';
  const at = namedValves(keyed)[Number(index)];
  if (part !== 'valves' || at === undefined) return undefined;
  const side = sideOf(keyed, at);
  switch (rest) {
    case 'valve':
      return `valve${at}`;
    case 'lash':
      return end === 'high' ? `high${at}` : `low${at}`;
    case 'fitted':
      return end === 'uncertainty' ? 'uncertainty' : `fitted${at}`;
    case 'wanted':
      return `${side}Wanted`;
    case 'range':
      return end === 'high' ? `${side}High` : `${side}Low`;
    default:
      return `valve${at}`;
  }
}
