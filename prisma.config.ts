import { fileURLToPath } from 'node:url';
import { defineConfig } from 'prisma/config';

// `prisma generate` never runs the native schema engine, yet its command line insists on having one and would
// download it. Any existing file satisfies the check.
if (process.argv.includes('generate')) {
  process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= fileURLToPath(import.meta.url);
}

export default defineConfig({
  schema: 'prisma/schema.prisma',
  migrations: { path: 'prisma/migrations' },
  datasource: { url: process.env.DATABASE_URL ?? '' },
});
