import { type AskThread, askThread } from '../threads/askThread.ts'
import type { Asked, Told } from './messages.ts'

/** The thread that fits. */
export type FitThread = AskThread<Asked, Told>

/** A fit of 20,000 runs takes seconds, on a busy computer a minute; what takes this long will not end well. */
const LIMIT_MS = 600_000

export const fitThread = (
  entry: URL = new URL('./worker.mjs', import.meta.url),
  limitMs: number = LIMIT_MS,
): FitThread => askThread(entry, limitMs)
