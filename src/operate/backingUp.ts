import { faultLines } from '../fault.ts'
import { sayProblem } from '../problem.ts'
import type { Store } from '../store/open.ts'
import { type BackupSettings, backUpWhenDue } from '../uses/backups.ts'
import { forgetOldChanges } from '../uses/changes.ts'

const now = (): string => new Date().toISOString()

/** A start has other things to do first, and a trial of the program is over before. */
const FIRST_MS = 60_000
const EVERY_MS = 60_000

/** Makes copies when they are due, from now on; gives what ends that and waits for the one under way. */
export function startBackingUp(
  store: Store,
  settings: BackupSettings,
  holder: string,
): { readonly stop: () => Promise<void> } {
  let underWay: Promise<void> = Promise.resolve()
  let isBusy = false
  const look = async () => {
    if (isBusy) return
    isBusy = true
    try {
      const made = await backUpWhenDue(store, settings, holder, now())
      if (made?.ok === false && made.problems[0]?.code !== 'busy')
        process.stderr.write(`${now()} backup failed: ${made.problems.map(sayProblem).join(' ')}\n`)
      await forgetOldChanges(store, now())
    } catch (error) {
      process.stderr.write(`${now()} fault of a backup\n${faultLines(error)}\n`)
    } finally {
      isBusy = false
    }
  }
  const tick = () => {
    if (!isBusy) underWay = look()
  }
  const first = setTimeout(tick, FIRST_MS)
  const later = setInterval(tick, EVERY_MS)
  return {
    stop: async () => {
      clearTimeout(first)
      clearInterval(later)
      await underWay
    },
  }
}
