import { faultLines } from '../fault.ts'
import type { Answered, Fault } from '../web/frame.ts'

const now = (): string => new Date().toISOString()

/** requests: a JSON line for each request and fault; faults: faults alone, as text for a person at a terminal. */
export const LOG_KINDS = ['requests', 'faults'] as const
export type LogKind = (typeof LOG_KINDS)[number]

const line = (fields: Readonly<Record<string, unknown>>): string => `${JSON.stringify(fields)}\n`

/** A request: its pattern, never its path; what kind of asker, never which. */
export function logAnswered(kind: LogKind): (answered: Answered) => void {
  if (kind === 'faults') return () => {}
  return (answered) => process.stdout.write(line({ at: now(), level: 'info', what: 'request', ...answered }))
}

/** Only where and what kind of fault: what was typed and stored does not belong in a log. */
export function logFault(kind: LogKind): (fault: Fault) => void {
  return ({ reference, requestId, method, path, error }) => {
    const places = faultLines(error)
    process.stderr.write(
      kind === 'requests'
        ? line({
            at: now(),
            level: 'error',
            what: 'fault',
            reference,
            requestId,
            method,
            path,
            places: places.split('\n'),
          })
        : `${now()} fault ${reference} ${method} ${path}\n${places}\n`,
    )
  }
}
