import '@testing-library/jest-dom/vitest'
import { beforeAll } from 'vitest'
import { loadAllPages } from '../../src/screen/pages/page-parts'

/** A component test is about pages, not about fetching them. */
beforeAll(loadAllPages)
