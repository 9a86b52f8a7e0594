import type {
  DrawLabels,
  DrawnLabels,
  LabelAsked,
  LabelChoices,
  LabelStocks,
  PrintLabels,
  SymbolKind,
} from '#contracts/labels.ts';
import { may } from '#contracts/rights.ts';
import { type LabelledKind, labelledKinds } from '#domain/labels/code.ts';
import { type LabelFacts, labelMarks } from '#domain/labels/design.ts';
import type { Mark } from '#domain/labels/mark.ts';
import { type LabelStock, labelStocks, perPage, placesOn } from '#domain/labels/stock.ts';
import { labelSvg } from '#domain/labels/svg.ts';
import { badgeFacts } from '#features/badges/service.ts';
import type { Actor } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { factsOf } from './facts.ts';
import { findChoices, findMark } from './queries.ts';
import { labelSheet, measure } from './sheet.ts';
import { symbolOf } from './symbol.ts';

const MOST_LABELS = 1000;

export const stocks = (): LabelStocks => ({
  items: labelStocks.map(({ id, name, columns, rows, label }) => ({
    id,
    name,
    columns,
    rows,
    widthMm: label.width,
    heightMm: label.height,
  })),
});

/** What a label can be printed for, of one kind. */
export async function choices(sql: Sql, kind: LabelledKind, search: string): Promise<LabelChoices> {
  const found = await findChoices(sql, { kind, search, limit: mostChoices + 1 });
  return { items: found.slice(0, mostChoices), more: found.length > mostChoices };
}
const mostChoices = 200;

interface Viewer {
  readonly sql: Sql;
  readonly actor: Actor;
}

const stockOf = (id: string): LabelStock =>
  found(
    labelStocks.find((stock) => stock.id === id),
    'such label stock',
  );

/** What each label asked for says, in the order asked for. */
async function allFacts({ sql, actor }: Viewer, asked: readonly LabelAsked[]): Promise<readonly LabelFacts[]> {
  const { mark, name } = await findMark(sql);
  const known = new Map<string, LabelFacts>();
  for (const kind of labelledKinds) {
    const ids = asked.flatMap((label) => (label.kind === kind ? [label.id] : []));
    if (ids.length > 0)
      for (const [id, facts] of await factsOf(sql, kind, { ids, mark })) known.set(`${kind} ${id}`, facts);
  }
  if (asked.some(({ kind }) => kind === 'badge') && !may(actor.roles, 'set up')) {
    throw new ProblemError('not-allowed', 'Badges are printed by whoever may set the shop up. Ask the lead.');
  }
  return Promise.all(
    asked.map(async (label, index) => {
      if (label.kind === 'badge')
        return badgeFacts(sql, { code: label.code, shop: name, pointer: `/labels/${index}/code` });
      const facts = known.get(`${label.kind} ${label.id}`);
      if (facts !== undefined) return facts;
      const detail = `There is no such ${label.kind} here. Choose it again.`;
      throw new ProblemError('not-found', detail, { errors: [{ pointer: `/labels/${index}/id`, detail }] });
    }),
  );
}

const marksOf = (facts: LabelFacts, stock: LabelStock, symbol: SymbolKind = 'datamatrix'): readonly Mark[] =>
  labelMarks(facts, { size: stock.label, symbol: symbolOf(facts.code, symbol), measure });

/** Each label once, as an image. */
export async function drawLabels(viewer: Viewer, { labels, stock: id, symbol }: DrawLabels): Promise<DrawnLabels> {
  const stock = stockOf(id);
  const facts = await allFacts(viewer, labels);
  return {
    items: facts.map((each, index) => {
      const kind = labels[index]?.kind ?? 'part';
      return {
        kind,
        name: each.name,
        code: kind === 'badge' ? null : each.code,
        svg: labelSvg(marksOf(each, stock, symbol), stock.label, `${each.kind} ${each.name}`),
      };
    }),
  };
}

/** All labels with their copies, on sheets, as a PDF. */
export async function printLabels(
  viewer: Viewer,
  { labels, stock: id, symbol, start, offsetMm }: PrintLabels,
): Promise<Buffer> {
  const stock = stockOf(id);
  if (start !== undefined && start > perPage(stock)) {
    const detail = `A sheet of this size has ${perPage(stock)} labels. Start at one of them.`;
    throw new ProblemError('refused', detail, { errors: [{ pointer: '/start', detail }] });
  }
  const count = labels.reduce((sum, { copies = 1 }) => sum + copies, 0);
  if (count > MOST_LABELS) {
    throw new ProblemError('too-big', `That is ${count} labels. Print at most ${MOST_LABELS} at a time.`);
  }
  const facts = await allFacts(viewer, labels);
  const each = facts.flatMap((one, index) => {
    const marks = marksOf(one, stock, symbol);
    return Array.from({ length: labels[index]?.copies ?? 1 }, () => marks);
  });
  const offset = offsetMm === undefined ? undefined : { x: offsetMm.right, y: offsetMm.down };
  const placed = placesOn(stock, each.length, { start, offset }).map((place, index) => ({
    place,
    marks: each[index] ?? [],
  }));
  return labelSheet(stock, placed, `Labels, ${stock.name}`);
}
