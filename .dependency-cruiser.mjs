/** The rooms of src in their order: a room imports only from rooms that stand before it, types included. */
const rooms = [
  'space',
  'body',
  'document',
  'contact',
  'pose',
  'weigh',
  'trial',
  'shift',
  'plan',
  'sheet',
  'draw',
  'export',
  'worker',
  'keep',
  'screen',
  'app',
]

/** Rooms without DOM, runes, clock or chance. */
const pure = rooms.slice(0, rooms.indexOf('worker'))

const inRooms = (names) => `^src/(${names.join('|')})/`

const onlyUp = rooms.slice(0, -1).map((room, index) => ({
  name: `${room}-imports-only-up`,
  comment: `${room} may not import a room that stands after it`,
  severity: 'error',
  from: { path: inRooms([room]) },
  to: { path: inRooms(rooms.slice(index + 1)) },
}))

export default {
  forbidden: [
    ...onlyUp,
    {
      name: 'plan-knows-no-mechanics',
      comment: 'edits, undo and validation work on the document alone',
      severity: 'error',
      from: { path: inRooms(['plan']) },
      to: { path: '^src/', pathNot: inRooms(['space', 'body', 'document', 'plan']) },
    },
    {
      name: 'worker-client-is-light',
      comment: 'the page must not load what the calculation thread loads',
      severity: 'error',
      from: { path: '^src/worker/client' },
      to: { pathNot: '^src/worker/(protocol|client)' },
    },
    {
      name: 'screen-talks-to-the-worker-client',
      severity: 'error',
      from: { path: inRooms(['screen']) },
      to: { path: '^src/worker/', pathNot: '^src/worker/(protocol|client)' },
    },
    {
      name: 'trial-runs-in-the-worker',
      comment: 'the trial brings matter-js, which would then be loaded twice',
      severity: 'error',
      from: { path: inRooms(['keep', 'screen']) },
      to: { path: inRooms(['trial']), dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'matter-js-only-in-trial',
      severity: 'error',
      from: { path: '^src/', pathNot: inRooms(['trial']) },
      to: { path: 'node_modules/(@types/)?matter-js/' },
    },
    {
      name: 'pure-rooms-stand-alone',
      comment: 'no Node module and no Svelte in a pure room',
      severity: 'error',
      from: { path: inRooms(pure) },
      to: { path: ['node_modules/svelte/', '\\.svelte(\\.ts)?$'] },
    },
    {
      name: 'pure-rooms-use-no-node-module',
      severity: 'error',
      from: { path: inRooms(pure) },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'every-file-in-a-room',
      severity: 'error',
      from: { path: '^src/', pathNot: inRooms(rooms) },
      to: {},
    },
    {
      name: 'released-code-uses-released-packages',
      comment: 'a development dependency is not there for the page; the build’s own plugins may use it',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/app/build/' },
      to: {
        dependencyTypes: ['npm-dev'],
        dependencyTypesNot: ['type-only'],
        pathNot: 'node_modules/@types/',
      },
    },
    {
      name: 'source-does-not-know-its-tests',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^tests/' },
    },
    {
      name: 'no-cycle',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'every-import-is-found',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.svelte', '.svelte.ts', '.js', '.mjs', '.json', '.d.ts'],
      exportsFields: ['exports'],
      conditionNames: ['svelte', 'browser', 'import', 'types', 'default'],
      mainFields: ['module', 'main', 'types'],
    },
  },
}
