import { PrismaPg } from '@prisma/adapter-pg';
import postgres from 'postgres';
import { type Prisma, PrismaClient } from './generated/client.ts';
import { columnTypes } from './types.ts';

type ColumnTypes = { [name in keyof typeof columnTypes]: ReturnType<(typeof columnTypes)[name]['parse']> };

/** postgres.js, or one of its open transactions: what a set-based query takes first. */
export type Sql = postgres.ISql<ColumnTypes>;
/** postgres.js with its pool, which can open transactions. */
export type SqlPool = postgres.Sql<ColumnTypes>;
/** The Prisma client, or one of its open transactions: what a typed query takes first. */
export type Models = Prisma.TransactionClient;

export interface Database {
  readonly sql: SqlPool;
  readonly prisma: PrismaClient;
  /** The address both clients use, for a connection of one's own (LISTEN). */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/**
 * What every connection asks for, whosever server it is. Without JIT: over large stores a statement that reads 20 ms is
 * thought dear enough to be compiled first, which takes ten times that.
 */
const session = { TimeZone: 'UTC', jit: 'off' } as const;

/** Opens both clients on one database; each keeps at most `max` connections and makes them when first needed. */
export function openDatabase(url: string, options: { readonly max?: number } = {}): Database {
  const max = options.max ?? 10;
  const sql = openSql(url, { max });
  const prisma = new PrismaClient({
    adapter: new PrismaPg({
      connectionString: url,
      max,
      options: `-c TimeZone=${session.TimeZone} -c jit=${session.jit}`,
    }),
  });
  return {
    sql,
    prisma,
    url,
    close: async () => {
      await Promise.all([sql.end({ timeout: 5 }), prisma.$disconnect()]);
    },
  };
}

/** Opens postgres.js alone, for migrations, tests and programs that need no models. */
export function openSql(url: string, options: { readonly max?: number } = {}): SqlPool {
  return postgres(url, {
    max: options.max ?? 10,
    types: columnTypes,
    connection: { ...session, application_name: 'crosshatch' },
    onnotice: () => undefined,
  });
}
