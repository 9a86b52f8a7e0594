import { type LabelledKind, writeCode } from '#domain/labels/code.ts';
import type { LabelFacts } from '#domain/labels/design.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import type { Sql } from '#platform/database/client.ts';
import { findBins, findEngines, findParts, findRacks, findTrays } from './queries.ts';

const said = (...rows: readonly (string | null | undefined)[]): readonly string[] =>
  rows.filter((row) => row !== null && row !== undefined && row !== '').map(String);

/** What the labels of some things say, by the thing's id. What is not there is left out. */
export async function factsOf(
  sql: Sql,
  kind: LabelledKind,
  { ids, mark }: { readonly ids: readonly string[]; readonly mark: string },
): Promise<ReadonlyMap<string, LabelFacts>> {
  const code = (serial: string) => writeCode({ kind, mark, serial });
  return new Map(
    (await rowsOf(sql, kind, ids)).map(({ id, serial, ...more }) => [id, { ...more, code: code(serial) }]),
  );
}

type Facts = Omit<LabelFacts, 'code'> & { readonly id: string; readonly serial: string };

async function rowsOf(sql: Sql, kind: LabelledKind, ids: readonly string[]): Promise<readonly Facts[]> {
  switch (kind) {
    case 'engine':
      return (await findEngines(sql, ids)).map(({ id, serial, name, family, job, stroke, cooling }) => ({
        id,
        serial,
        kind: 'engine',
        name,
        rows: said(family, job === null ? null : `job ${job}`),
        section: { stroke, cooling, depth: 'closed', cams: true },
      }));
    case 'tray':
      return (await findTrays(sql, ids)).map((tray) => ({
        id: tray.id,
        serial: tray.serial,
        kind: containerOf(tray),
        name: tray.name,
        rows: said(tray.words, `job ${tray.job}, ${tray.engine}`, tray.pieces.join(', ')),
        ...(tray.layer === null
          ? {}
          : { section: { stroke: tray.stroke, cooling: tray.cooling, depth: tray.layer, cams: true } }),
      }));
    case 'rack':
      return (await findRacks(sql, ids)).map(({ id, serial, name, fromWhere, places, job, engine }) => ({
        id,
        serial,
        kind: 'rack',
        name,
        rows: said(`${places.length} places: ${places.join(', ')}`, `job ${job}, ${engine}`, fromWhere),
      }));
    case 'bin':
      return (await findBins(sql, ids)).map(({ id, serial, name, parts }) => ({
        id,
        serial,
        kind: 'bin',
        name,
        rows: said(parts.join(', ')),
      }));
    case 'part':
      return (await findParts(sql, ids)).map(({ id, serial, name, words, shim, bins }) => ({
        id,
        serial,
        kind: shim === null ? 'part' : 'shim',
        name: shim === null ? name : `${formatQuantity(shim, 'mm', 3)} mm`,
        rows: said(shim === null ? null : name, words, bins.length === 0 ? null : `bin ${bins.join(', ')}`),
      }));
  }
}

/** A bag is a tray that is called one: what is printed on it says what one holds in the hand. */
function containerOf({
  alone,
  words,
  layer,
}: {
  readonly alone: boolean;
  readonly words: string;
  readonly layer: string | null;
}): string {
  if (alone) return 'travels alone';
  const container = /\bbag\b/i.test(words) ? 'bag' : 'tray';
  return layer === null ? container : `${container}, ${layer}`;
}
