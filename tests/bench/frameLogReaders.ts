import { createReadStream, statSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import type { FrameFigures } from '../../src/core/frames/figures.ts'
import { openLog, studyLog } from '../../src/input/frameLog/read.ts'

const COLUMN = 3

/** The baseline: what anybody would write to get the average of one column. */
export async function plainly(input: NodeJS.ReadableStream): Promise<number> {
  let frames = 0
  let ms = 0
  for await (const line of createInterface({ input })) {
    const value = Number(line.split(',')[COLUMN])
    if (value > 0) {
      frames++
      ms += value
    }
  }
  return (1000 * frames) / ms
}

/** Everything that the page and the command tell of a log. */
export async function guessed(file: string): Promise<FrameFigures> {
  const source = { name: file, size: statSync(file).size, bytes: () => createReadStream(file) }
  const opened = await openLog(source)
  if (!opened.ok) throw new Error('the log of the bench is none')
  const study = await studyLog(source, opened.value.layout, opened.value.guess.choice)
  if (!study.ok || study.value.figures === undefined) throw new Error('the log of the bench has no frame')
  return study.value.figures
}

/** As a process of its own: reads one log and prints its own peak memory in kB. */
if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [how, file = ''] = process.argv.slice(2)
  const fps = how === 'plain' ? await plainly(createReadStream(file)) : (await guessed(file)).averageFps
  if (!(fps > 60 && fps < 80)) throw new Error('the figures of the bench are wrong')
  process.stdout.write(String(process.resourceUsage().maxRSS))
}
