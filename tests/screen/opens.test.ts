import { render, screen } from '@testing-library/svelte'
import { expect, test } from 'vitest'
import App from '../../src/app/App.svelte'

test('the page has a heading that names it', () => {
  render(App)
  expect(screen.getAllByRole('heading').length).toBeGreaterThan(0)
})
