module.exports = {
  forbidden: [
    {
      name: 'engine-is-pure',
      severity: 'error',
      from: { path: '^packages/engine/src', pathNot: '\\.test\\.ts$' },
      to: { pathNot: '^packages/engine/(src|data)' },
    },
    {
      name: 'job-knows-engine-only',
      severity: 'error',
      from: { path: '^packages/job/src', pathNot: '\\.test\\.ts$' },
      to: { path: '^(apps|packages/report)' },
    },
    {
      name: 'no-app-imports-web',
      severity: 'error',
      from: { path: '^(packages|apps/(cli|server))' },
      to: { path: '^apps/web' },
    },
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
  ],
  options: {
    tsPreCompilationDeps: false,
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'default'],
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'],
    },
  },
};
