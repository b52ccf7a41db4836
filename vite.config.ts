import { fileURLToPath } from 'node:url'
import { svelte } from '@sveltejs/vite-plugin-svelte'
import { svelteTesting } from '@testing-library/svelte/vite'
import { defineConfig } from 'vitest/config'
import { contentSecurityPolicy } from './src/app/build/content-security-policy.ts'
import { serviceWorker } from './src/app/build/service-worker.ts'

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

/** Rooms whose tests run in plain Node; `tests/screen` and `tests/browser` have projects of their own. */
const unitRooms =
  'space,body,document,contact,pose,weigh,trial,shift,plan,sheet,draw,export,worker,keep,app,outside,golden,soak'

/** How long what is looked at again and again may take, ms: as long as a busy machine needs. */
const PATIENT = { poll: { timeout: 30_000 } }

const EVERY_PROCESSOR = { maxWorkers: '100%', sequence: { groupOrder: 0 } }

export default defineConfig({
  root: at('src/app'),
  publicDir: at('static'),
  base: './',
  // A missing file must be a 404 and never the page itself.
  appType: 'mpa',
  plugins: [
    svelte({ configFile: false, compilerOptions: { runes: true } }),
    contentSecurityPolicy(),
    serviceWorker(),
  ],
  worker: { format: 'es' },
  build: {
    outDir: at('dist'),
    emptyOutDir: true,
    target: 'es2022',
    // The polyfill is an inline script, which the content security policy forbids.
    modulePreload: { polyfill: false },
    // An inlined asset would be a data: URL, which the policy allows for pictures only.
    assetsInlineLimit: 0,
    rolldownOptions: {
      output: {
        // What the start shares with later pages stays in one piece: thirty small ones compress worse by a tenth.
        codeSplitting: {
          groups: [
            {
              name: 'shared',
              minShareCount: 2,
              test: /\/(src|node_modules\/svelte)\/(?!sheet\/how-|shift\/|screen\/(how|timing|pages)\/|draw\/(picture|camera)|pose\/refit|plan\/edit\/(resize|ground))/,
            },
          ],
        },
      },
    },
  },
  test: {
    root: at('.'),
    projects: [
      {
        extends: true,
        plugins: [svelteTesting({ autoCleanup: false })],
        test: {
          name: 'unit',
          ...EVERY_PROCESSOR,
          include: [`tests/{${unitRooms}}/**/*.test.ts`],
          // Thousands of random cases on a busy machine; speed is the benchmark's business.
          testTimeout: 240_000,
          environment: at('tests/support/client-environment.ts'),
        },
      },
      {
        extends: true,
        plugins: [svelteTesting()],
        test: {
          name: 'components',
          ...EVERY_PROCESSOR,
          include: ['tests/screen/**/*.test.ts'],
          expect: PATIENT,
          // Whole pages drawn in Node, on a machine that may be busy with something else.
          testTimeout: 60_000,
          environment: 'jsdom',
          setupFiles: [at('tests/support/component-setup.ts')],
        },
      },
      {
        extends: true,
        test: {
          name: 'e2e',
          // After the others and one file at a time: a page and its worker keep two processors busy by themselves.
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
          include: ['tests/browser/**/*.test.ts'],
          expect: PATIENT,
          environment: 'node',
          globalSetup: [at('tests/support/e2e-setup.ts')],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
})
