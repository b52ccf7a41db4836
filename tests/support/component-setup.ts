import '@testing-library/jest-dom/vitest'
import { configure } from '@testing-library/svelte'
import { beforeAll } from 'vitest'
import { loadAllPages } from '../../src/screen/pages/page-parts'

/** A component test is about pages, not about fetching them. */
beforeAll(loadAllPages)

// A busy machine may take longer to draw than the library's one second.
configure({ asyncUtilTimeout: 30_000 })
