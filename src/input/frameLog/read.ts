import { type FrameFigures, studyFrames } from '../../core/frames/figures.ts'
import { frameRows, type RowCounts } from '../../core/frames/rows.ts'
import { failed, ok, type Result } from '../../problem.ts'
import { type Choice, type Guess, guessOf } from './guess.ts'
import { HEAD_BYTES, type Layout, layoutOf, NO_ROWS } from './layout.ts'
import { cellAt, EndlessRow, numberAt, rowScanner } from './scan.ts'
import { asUtf8 } from './text.ts'

/** A log that can be read from its beginning as often as is needed. */
export type LogSource = {
  readonly name: string
  readonly size: number
  readonly bytes: () => AsyncIterable<Uint8Array>
}

/** How a log is written, and the first guess at how it is to be read. */
export type Opened = { readonly layout: Layout; readonly guess: Guess }

export type LogStudy = {
  readonly rows: RowCounts
  /** Absent where no row gave a frame. */
  readonly figures?: FrameFigures | undefined
}

/** Looks at the beginning of a log. */
export async function openLog({ name, bytes }: LogSource): Promise<Result<Opened>> {
  const pieces: Uint8Array[] = []
  let length = 0
  for await (const piece of bytes()) {
    // A copy: some streams use their pieces again.
    pieces.push(Uint8Array.from(piece))
    length += piece.length
    if (length >= HEAD_BYTES) break
  }
  const layout = layoutOf(Buffer.concat(pieces), name)
  return layout.ok ? ok({ layout: layout.value, guess: guessOf(layout.value) }) : layout
}

/**
 * Reads a whole log, once or (above 131,072 frames) twice and more, in memory that does not grow with it.
 *
 * @param progress told now and then how much is done, from 0 to 1; a log that is read once ends in the middle
 */
export async function studyLog(
  { name, size, bytes }: LogSource,
  layout: Layout,
  choice: Choice,
  progress: (share: number) => void = () => {},
): Promise<Result<LogStudy>> {
  const study = studyFrames()
  let rows: RowCounts | undefined
  let bytesRead = 0
  try {
    do {
      const pass = passOver(layout, choice, study.add)
      for await (const piece of bytes()) {
        pass.push(piece)
        bytesRead += piece.length
        progress(Math.min(bytesRead / (2 * size), 1))
      }
      rows = pass.end()
    } while (study.endPass())
  } catch (error) {
    if (!(error instanceof EndlessRow)) throw error
    return failed({ code: 'unreadable', field: 'log', file: name, next: NO_ROWS })
  }
  const figures = study.figures()
  return ok({ rows, ...(figures !== undefined && { figures }) })
}

function passOver(layout: Layout, choice: Choice, frame: (ms: number) => void) {
  const { rowEnd, rowsBefore, parting, encoding } = layout
  const { column, unshown } = choice
  const reader = frameRows(choice.as, choice.unit, frame)
  const text = asUtf8(encoding)
  let rows = 0
  const scanner = rowScanner(rowEnd, (bytes, from, to) => {
    if (rows++ < rowsBefore) return
    const value = numberAt(bytes, from, to, layout, column)
    const isShown = unshown === undefined || cellAt(bytes, from, to, parting, unshown.column) !== unshown.mark
    reader.row(value, isShown)
  })
  return {
    push: (piece: Uint8Array): void => scanner.push(text.push(piece)),
    end: (): RowCounts => {
      scanner.push(text.end())
      scanner.end()
      return reader.counts()
    },
  }
}
