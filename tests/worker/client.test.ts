import { expect, test } from 'vitest'
import { type Post, WorkerClient } from '../../src/worker/client'
import type { Request, TakeProblem } from '../../src/worker/protocol'

const input = {} as TakeProblem

function fakeThread() {
  const sent: Request[] = []
  const post: Post = { postMessage: (request) => void sent.push(request), onmessage: null, onerror: null }
  return { sent, post }
}

test('stale answers are dropped', () => {
  const { sent, post } = fakeThread()
  const client = new WorkerClient(() => post)
  const heard: string[] = []
  const listener = (name: string) => ({
    pieces: (pieces: readonly unknown[], done: boolean) =>
      void heard.push(`${name} ${pieces.length} ${done}`),
  })
  client.request('weigh take', input, listener('first'))
  client.request('weigh take', input, listener('second'))
  const [one, two] = sent.map(({ id }) => id) as [number, number]
  post.onmessage?.({ data: { id: one, pieces: [1], done: true } })
  post.onmessage?.({ data: { id: two, pieces: [1, 2], done: false } })
  post.onmessage?.({ data: { id: two, pieces: [], done: true } })
  expect(heard).toEqual(['second 2 false', 'second 0 true'])
})

test('a thread that breaks, or cannot start, says why', () => {
  const { post } = fakeThread()
  const reasons: string[] = []
  const listener = { pieces: () => {}, failed: (reason: string) => void reasons.push(reason) }
  new WorkerClient(() => post).request('weigh take', input, listener)
  post.onerror?.({ message: 'out of memory' })
  new WorkerClient(() => {
    throw new Error('no threads here')
  }).request('weigh take', input, listener)
  expect(reasons).toEqual(['out of memory', 'no threads here'])
})
