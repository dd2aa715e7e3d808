import { type LogSource, openLog, studyLog } from '../../../src/input/frameLog/read.ts'

/** A log in memory, handed out in pieces of that many bytes. */
export function logOf(content: string | Uint8Array, pieceBytes = 65_536): LogSource {
  const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : Buffer.from(content)
  return {
    name: 'a-log.csv',
    size: bytes.length,
    bytes: async function* () {
      for (let at = 0; at < bytes.length; at += pieceBytes) yield bytes.subarray(at, at + pieceBytes)
    },
  }
}

export async function opened(content: string | Uint8Array, pieceBytes?: number) {
  const open = await openLog(logOf(content, pieceBytes))
  if (!open.ok) throw new Error(open.problems.map((p) => p.next).join(' '))
  return open.value
}

/** Opens a log and reads it as guessed. */
export async function read(content: string | Uint8Array, pieceBytes?: number) {
  const { layout, guess } = await opened(content, pieceBytes)
  const study = await studyLog(logOf(content, pieceBytes), layout, guess.choice)
  if (!study.ok) throw new Error(study.problems.map((p) => p.next).join(' '))
  return { layout, guess, ...study.value }
}
