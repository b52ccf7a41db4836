import { execFileSync } from 'node:child_process'
import { expect, it } from 'vitest'
import { inShort } from './in-short'
import { loaders } from './loaders'
import { trials } from './trials'
import { weighings } from './weighings'

inShort(loaders)
inShort(weighings)
inShort(trials)

it('files as large as may be, made to cost most, are read or refused within 256 MB', () => {
  const args = ['--max-old-space-size=256', '--import', 'tsx', 'tests/soak/run.ts', 'hostile']
  // It prints what failed; with too little memory it would not come to its end.
  const said = execFileSync(process.execPath, [...args, '--timeless'], { encoding: 'utf8' })
  expect(said).toMatch(/hostile: \d+ seeds from 0, 0 failed/)
})
