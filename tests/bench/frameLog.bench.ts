import { spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { createReadStream, createWriteStream, statSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, bench, describe } from 'vitest'
import { guessed, plainly } from './frameLogReaders.ts'

const ROWS = 2_000_000

/**
 * A log of that many rows: number, time stamp, load, frame time, shown. Frames by a fixed rule (Lehmer's generator,
 * Park and Miller 1988), so that every run reads the same bytes.
 */
async function writeLog(file: string, rows: number): Promise<void> {
  const out = createWriteStream(file)
  let state = 7
  let at = 0
  out.write('Capture of a run\nn,clock,load,step,seen\n')
  for (let from = 0; from < rows; from += 10_000) {
    let text = ''
    for (let row = from; row < Math.min(from + 10_000, rows); row++) {
      state = (state * 48271) % 2147483647
      const ms = 12 + (state % 40_000) / 10_000 + (state % 487 === 0 ? 30 : 0)
      at += ms
      text += `${row},${(at / 1000).toFixed(6)},${90 + (state % 10)},${ms.toFixed(4)},${state % 997 === 0 ? 0 : 1}\n`
    }
    if (!out.write(text)) await once(out, 'drain')
  }
  out.end()
  await once(out, 'finish')
}

const folder = await mkdtemp(join(tmpdir(), 'stillfits-bench-'))
const [long, short] = [join(folder, 'long.csv'), join(folder, 'short.csv')]
await writeLog(long, ROWS)
await writeLog(short, ROWS / 20)
afterAll(() => rm(folder, { recursive: true, force: true }))

/** Peak memory of a process that does nothing but read that log, in MB (getrusage, ru_maxrss in kB). */
function peakMB(how: 'plain' | 'ours', file: string): number {
  const child = fileURLToPath(new URL('frameLogReaders.ts', import.meta.url))
  const { stdout, status } = spawnSync(process.execPath, ['--import', 'tsx', child, how, file], {
    encoding: 'utf8',
  })
  if (status !== 0) throw new Error(`${how} ended with ${status}`)
  return Number(stdout) / 1000
}

const [plain, ours, oursShort] = [peakMB('plain', long), peakMB('ours', long), peakMB('ours', short)]
process.stdout.write(
  [
    `\nPeak memory, ${ROWS} rows (${(statSync(long).size / 1e6).toFixed(0)} MB):`,
    `plain line reader ${plain.toFixed(0)} MB; ours ${ours.toFixed(0)} MB (${(ours / plain).toFixed(2)} x plain);`,
    `ours on a twentieth of the rows ${oursShort.toFixed(0)} MB (goal: the long log takes under 30 MB more)\n`,
  ].join(' '),
)

/**
 * The goal: all figures of two million rows, read twice, in at most twice the time of a plain line reader that reads
 * them once and sums one column.
 */
describe(`figures of ${ROWS} frames`, () => {
  const times = { iterations: 5, warmupIterations: 1, time: 0, warmupTime: 0 }
  bench(
    'plain line reader (node:readline, split, sum)',
    async () => void (await plainly(createReadStream(long))),
    times,
  )
  bench('all figures, column and unit guessed', async () => void (await guessed(long)), times)
})
