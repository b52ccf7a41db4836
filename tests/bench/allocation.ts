import { type HeapProfiler, Session } from 'node:inspector'
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import type { Case } from './measure'

/** Bytes that may gather without a collection: the engine lets 1 MB or more. */
const NO_COLLECTION = 500_000
/** Batches, and bytes that one should come to where a run is smaller. */
const BATCHES = 41
const BATCH = 100_000
/** Bytes from one sample to the next on average. */
const SAMPLING_INTERVAL = 8192
/** The processor's time for which runs are sampled, µs; at least one run is. */
const SAMPLING_TIME = 300_000

/**
 * Bytes that one run allocates. Call it once the case has been timed: by then the engine's compilers, which
 * allocate too, are done with it.
 *
 * Small runs are counted: by how much the engine's heap and the buffers beside it grow over a batch of runs that
 * begins just after a collection and is too small to cause one, less what asking costs; the median of BATCHES.
 * Among large runs the engine collects, so they are sampled by its own heap profiler, without buffers beside the
 * heap. Where both could be used they differed by 1 to 8 %, once by 28 %.
 */
export function bytesPerRun(one: Pick<Case, 'ready' | 'run'>): number {
  const rough = sampled(one)
  return rough > NO_COLLECTION ? rough : counted(one)
}

function counted({ ready, run }: Pick<Case, 'ready' | 'run'>): number {
  let turn = 0
  const batch = (runs: number): number => {
    ready?.(turn)
    collect({ type: 'minor' })
    const before = process.memoryUsage()
    for (let i = 0; i < runs; i++) run(turn++)
    const after = process.memoryUsage()
    return after.heapUsed - before.heapUsed + after.arrayBuffers - before.arrayBuffers
  }
  const median = (runs: number): number =>
    Array.from({ length: BATCHES }, () => batch(runs)).sort((a, b) => a - b)[BATCHES >> 1] as number
  const asking = median(0)
  let runs = 1
  while (!ready && runs < 100 && median(runs) < BATCH) runs *= 2
  return Math.max(0, Math.round((median(runs) - asking) / runs))
}

function sampled({ ready, run }: Pick<Case, 'ready' | 'run'>): number {
  const session = new Session()
  session.connect()
  const options = {
    samplingInterval: SAMPLING_INTERVAL,
    // What is collected meanwhile counts too.
    includeObjectsCollectedByMajorGC: true,
    includeObjectsCollectedByMinorGC: true,
  }
  session.post('HeapProfiler.startSampling', options)
  let turn = 0
  /** Bytes and runs: one run where it has to be made ready, else as many as fit into the time. */
  const batch = (): [number, number] => {
    ready?.(turn)
    const [before, first, start] = [sizeSoFar(session), turn, process.cpuUsage()]
    do run(turn++)
    while (!ready && process.cpuUsage(start).user < SAMPLING_TIME)
    return [sizeSoFar(session) - before, turn - first]
  }
  // The profiler's own first work on a function counts as the function's.
  batch()
  const [bytes, runs] = batch()
  session.post('HeapProfiler.stopSampling')
  session.disconnect()
  return Math.round(bytes / runs)
}

function sizeSoFar(session: Session): number {
  let size = 0
  session.post('HeapProfiler.getSamplingProfile', (fault, { profile }) => {
    if (fault) throw fault
    size = sizeOf(profile.head)
  })
  return size
}

function sizeOf({ selfSize, children }: HeapProfiler.SamplingHeapProfileNode): number {
  return children.reduce((sum, child) => sum + sizeOf(child), selfSize)
}

setFlagsFromString('--expose-gc')
const collect = runInNewContext('gc') as (options: { type: 'minor' }) => void
