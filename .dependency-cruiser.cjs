/** Who may import whom: docs/architecture.md says why. Every rule is an error. */
const feature = '^server/features/([^/]+)/';
const generated = '^server/platform/database/generated/';

const rule = (name, from, to) => ({ name, severity: 'error', from, to });

module.exports = {
  forbidden: [
    rule('no-cycles', {}, { circular: true }),
    // An address of a file is the bundler's to find.
    rule('everything-resolves', {}, { couldNotResolve: true, pathNot: '\\?url$' }),
    rule(
      'domain-stands-alone',
      { path: '^server/domain/' },
      { pathNot: ['^server/domain/', 'node_modules/temporal-polyfill/'] },
    ),
    rule(
      'contracts-know-only-the-domain',
      { path: '^server/contracts/' },
      { path: '^(server|web|prisma)/', pathNot: '^server/(contracts|domain)/' },
    ),
    rule(
      'platform-knows-no-feature',
      { path: '^server/platform/' },
      { path: '^(server|web|prisma)/', pathNot: '^server/(platform|contracts|domain)/' },
    ),
    rule(
      'features-know-what-lies-below',
      { path: '^server/features/' },
      { path: '^(server|web|prisma)/', pathNot: '^server/(features|platform|contracts|domain)/' },
    ),
    rule(
      'web-knows-contracts-and-domain',
      { path: '^web/' },
      { path: '^(server|prisma)/', pathNot: '^server/(contracts|domain)/' },
    ),
    rule('server-knows-no-web', { path: '^(server|prisma)/' }, { path: '^web/' }),
    rule(
      'another-feature-through-its-service',
      { path: feature },
      { path: '^server/features/[^/]+/', pathNot: ['^server/features/$1/', '/service\\.ts$'] },
    ),
    rule('routes-go-through-the-service', { path: `${feature}.*routes\\.ts$` }, { path: `${feature}.*queries\\.ts$` }),
    rule('service-knows-no-routes', { path: `${feature}.*service\\.ts$` }, { path: `${feature}.*routes\\.ts$` }),
    rule(
      'queries-end-the-chain',
      { path: `${feature}.*queries\\.ts$` },
      { path: `${feature}.*(routes|service)\\.ts$` },
    ),
    rule(
      'prisma-in-queries-only',
      { pathNot: ['^server/platform/database/', 'queries\\.ts$', '^prisma/'] },
      { path: ['node_modules/@prisma/', generated] },
    ),
    rule(
      'drivers-in-database-live-and-queries',
      { pathNot: ['^server/platform/(database|live)/', 'queries\\.ts$', '^prisma/'] },
      { path: ['node_modules/postgres/', 'node_modules/pg/'] },
    ),
    rule(
      'fastify-in-routes-app-and-http',
      { path: '^server/', pathNot: ['^server/platform/(http|live)/', '^server/app\\.ts$', 'routes\\.ts$'] },
      { path: ['node_modules/fastify', 'node_modules/@fastify/'] },
    ),
    rule('no-tools-at-run-time', { path: '^(server|web)/' }, { dependencyTypes: ['npm-dev', 'npm-no-pkg'] }),
  ],
  options: {
    doNotFollow: { path: ['node_modules', generated] },
    exclude: { path: `${generated}.+/` },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    combinedDependencies: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default'],
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json'],
    },
  },
};
