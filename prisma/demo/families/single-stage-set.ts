import type { FastenerFigures } from '../spec-sheet.ts';

type Points = FastenerFigures['positions'];

/** So many bolts round a cover, those that lie opposite one after the other. */
export const round = (count: number, [x, y]: readonly [number, number]): Points => {
  const half = Math.ceil(count / 2);
  return Array.from({ length: count }, (_, place) => {
    const slot = place % 2 === 0 ? place / 2 : half + (place - 1) / 2;
    const angle = (2 * Math.PI * slot) / count;
    return [Math.round(x * Math.cos(angle)), Math.round(y * Math.sin(angle))] as const;
  });
};

export interface SetFigures {
  readonly code: string;
  readonly name: string;
  readonly thread: string;
  readonly tool: string;
  readonly positions: Points;
  readonly newtonMetres: number;
  /** Left out: 8.8. None, where the thread is no bolt’s. */
  readonly propertyClass?: string;
  /** Left out: dry. */
  readonly condition?: FastenerFigures['condition'];
}

export const one: Points = [[0, 0]];

/** Every figure is made up; what no typo guard would question, since each stays well below the bolt’s proof load. */
export const set = (page: string, of: SetFigures): FastenerFigures => ({
  code: of.code,
  name: of.name,
  thread: of.thread,
  propertyClass: of.propertyClass ?? '8.8',
  condition: of.condition ?? 'dry',
  tool: of.tool,
  reuse: 'reuse',
  positions: of.positions,
  stages: [{ newtonMetres: of.newtonMetres }],
  page,
});
