import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import path from 'node:path';
import {
  bindMigrationAwareSqlAdapterFactory,
  type ColumnType,
  ColumnTypeEnum,
  type SqlDriverAdapter,
  type SqlMigrationAwareDriverAdapterFactory,
  type SqlQuery,
  type SqlResultSet,
} from '@prisma/driver-adapter-utils';
import * as glue from '@prisma/schema-engine-wasm/schema_engine_bg';
import pg from 'pg';

/** What the engine's catalogue queries return, by PostgreSQL's type number ("char" is the one that PrismaPg lacks). */
const catalogueTypes: Readonly<Record<number, ColumnType>> = {
  16: ColumnTypeEnum.Boolean,
  18: ColumnTypeEnum.Character,
  19: ColumnTypeEnum.Text,
  20: ColumnTypeEnum.Int64,
  21: ColumnTypeEnum.Int32,
  23: ColumnTypeEnum.Int32,
  25: ColumnTypeEnum.Text,
  26: ColumnTypeEnum.Int64,
  1003: ColumnTypeEnum.TextArray,
  1005: ColumnTypeEnum.Int32Array,
  1009: ColumnTypeEnum.TextArray,
  1043: ColumnTypeEnum.Text,
};

/**
 * What would have to be done to the database so that it equals the schema, as text; undefined if it does already. Asks
 * Prisma's own schema engine, which comes as WebAssembly and so needs no download.
 */
export async function schemaDrift(databaseUrl: string, schemaFile: string): Promise<string | undefined> {
  return withEngine(databaseUrl, async (engine) => {
    const files = [{ path: path.resolve(schemaFile), content: await readFile(schemaFile, 'utf8') }];
    const { exitCode, stdout } = await engine.diff({
      from: { tag: 'schemaDatasource', files, configDir: process.cwd() },
      to: { tag: 'schemaDatamodel', files },
      script: true,
      exitCode: true,
      filters: { externalTables: [], externalEnums: [] },
    });
    return exitCode === 0 ? undefined : (stdout ?? 'the engine said nothing');
  });
}

/** The schema that the engine reads out of a database, in its own words; `base` has the generator and datasource. */
export async function introspectedSchema(databaseUrl: string, base: string): Promise<string> {
  return withEngine(databaseUrl, async (engine) => {
    const file = { path: path.resolve('prisma/schema.prisma'), content: base };
    const { schema } = await engine.introspect({
      schema: { files: [file] },
      force: true,
      baseDirectoryPath: path.resolve('prisma'),
      compositeTypeDepth: 0,
      namespaces: null,
    });
    const [read] = schema.files;
    if (read === undefined) throw new Error('the engine read no schema');
    return read.content;
  });
}

async function withEngine<T>(databaseUrl: string, work: (engine: glue.SchemaEngine) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  await loadEngine();
  const engine = await glue.SchemaEngine.new(
    { datamodels: undefined },
    () => undefined,
    bindMigrationAwareSqlAdapterFactory(factoryOn(client)),
  );
  try {
    return await work(engine);
  } finally {
    engine.free();
    await client.end();
  }
}

function factoryOn(client: pg.Client): SqlMigrationAwareDriverAdapterFactory {
  const info = { provider: 'postgres', adapterName: 'catalogue-reader' } as const;
  const refuse = async (): Promise<never> => {
    throw new Error('comparing schemas only reads');
  };
  const adapter: SqlDriverAdapter = {
    ...info,
    queryRaw: (query) => readRows(client, query),
    executeRaw: refuse,
    executeScript: refuse,
    startTransaction: refuse,
    getConnectionInfo: () => ({ schemaName: 'public', supportsRelationJoins: true }),
    dispose: async () => undefined,
  };
  return { ...info, connect: async () => adapter, connectToShadowDb: refuse };
}

async function readRows(client: pg.Client, query: SqlQuery): Promise<SqlResultSet> {
  const result = await client.query<unknown[]>({ text: query.sql, values: query.args, rowMode: 'array' });
  const columnTypes = result.fields.map(({ name, dataTypeID }) => {
    const type = catalogueTypes[dataTypeID];
    if (type === undefined) throw new Error(`column ${name} has type ${dataTypeID}, which is not in the list above`);
    return type;
  });
  return { columnNames: result.fields.map(({ name }) => name), columnTypes, rows: result.rows };
}

let loaded: Promise<void> | undefined;

/** Once a process: the glue module keeps the instance's memory. */
function loadEngine(): Promise<void> {
  loaded ??= (async () => {
    const folder = path.dirname(createRequire(import.meta.url).resolve('@prisma/schema-engine-wasm/schema_engine_bg'));
    const module = await WebAssembly.compile(await readFile(path.join(folder, 'schema_engine_bg.wasm')));
    const instance = await WebAssembly.instantiate(module, { './schema_engine_bg.js': glue });
    // The engine reports its own panics through this global before it gives up.
    Object.assign(globalThis, { PRISMA_WASM_PANIC_REGISTRY: { set_message: (text: string) => console.error(text) } });
    glue.__wbg_set_wasm(instance.exports);
    (instance.exports.__wbindgen_start as () => void)();
  })();
  return loaded;
}
