import type { Scanned } from '#contracts/labels.ts';
import { type LabelCode, readCode } from '#domain/labels/code.ts';
import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';
import { findBin, findEngine, findPart, findRack, findShopMark, findTray, type Sought } from './queries.ts';

type Look = (sql: Sql, sought: Sought) => Promise<Scanned | undefined>;

const asKind =
  <Kind extends Scanned['kind'], Row extends object>(
    kind: Kind,
    find: (sql: Sql, sought: Sought) => Promise<Row | undefined>,
  ) =>
  async (sql: Sql, sought: Sought) => {
    const row = await find(sql, sought);
    return row === undefined ? undefined : { kind, ...row };
  };

/** In the order in which plain words are tried: of two things called the same, the first of these is meant. */
const looks = {
  part: asKind('part', findPart),
  bin: asKind('bin', findBin),
  tray: asKind('tray', findTray),
  rack: asKind('rack', findRack),
  engine: asKind('engine', findEngine),
} satisfies Record<Scanned['kind'], Look>;

/** What a scanned code is, or what somebody typed: a part's number, a bin's code, a tray's label, an engine's serial. */
export async function scanned(sql: Sql, text: string): Promise<Scanned> {
  const typed = text.trim();
  const read = readCode(typed);
  if (read.ok) return byCode(sql, read.code);
  for (const look of Object.values<Look>(looks)) {
    const thing = await look(sql, { called: typed });
    if (thing !== undefined) return thing;
  }
  if (read.reason === 'mistyped') {
    throw new ProblemError(
      'code-wrong',
      'That begins like a label’s code, but one of its letters or digits is wrong or missing. Scan it again, or compare what is printed beneath.',
    );
  }
  throw new ProblemError('not-found', `Nothing here is labelled “${typed}”: no part, bin, tray or engine.`);
}

async function byCode(sql: Sql, { kind, mark, serial }: LabelCode): Promise<Scanned> {
  if (kind === 'badge') {
    throw new ProblemError(
      'refused',
      'That is a badge. It opens a terminal where nobody is signed in, and nothing else.',
    );
  }
  if (mark !== (await findShopMark(sql))) {
    throw new ProblemError(
      'code-foreign',
      `That label was printed by another shop. This shop does not know the ${kind}.`,
    );
  }
  const thing = await looks[kind](sql, { serial });
  if (thing !== undefined) return thing;
  throw new ProblemError('not-found', `That is a label of this shop, but no ${kind} with it is known here any more.`);
}
