import type { Environment } from 'vitest/runtime'

/**
 * Plain Node, but with modules compiled as for the browser: compiled for the server,
 * a Svelte `$effect` would silently do nothing.
 */
export default {
  name: 'client',
  viteEnvironment: 'client',
  setup: () => ({ teardown() {} }),
} satisfies Environment
