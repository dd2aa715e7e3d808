/** Messages that hold no value: the database layer's own (see store/errors.ts). */
const SAFE_NAMES: readonly string[] = ['StoreFault']

/** A line of a stack: where, and in which function; no message looks like it and is kept. */
const PLACE = /^ {4}at (?:async )?(?:[\w$.<>#[\] ]+ \()?(?:file:|node:|\/)[^()\s]*:\d+:\d+\)?$/

const CAUSES_MAX = 4

/**
 * An error as it may stand in a log: its kind and where it happened. Its message is left out, because messages quote
 * what was read (JSON.parse does, and drivers do), and that may be somebody's name.
 */
export function faultLines(error: unknown): string {
  const lines: string[] = []
  for (let e = error, depth = 0; e !== undefined && depth < CAUSES_MAX; depth++) {
    if (!(e instanceof Error)) {
      lines.push(`${depth === 0 ? '' : 'caused by '}a thrown ${typeof e}`)
      break
    }
    lines.push(`${depth === 0 ? '' : 'caused by '}${kindOf(e)}`)
    lines.push(...placesOf(e))
    e = e.cause
  }
  return lines.join('\n')
}

function kindOf(error: Error): string {
  const kind = /^\w{1,40}$/.test(error.name) ? error.name : 'Error'
  const code = 'code' in error ? error.code : undefined
  const shown = typeof code === 'string' && /^[A-Z][A-Z0-9_]{1,60}$/.test(code) ? ` ${code}` : ''
  return SAFE_NAMES.includes(kind) ? `${kind}: ${error.message}` : `${kind}${shown}`
}

/** The stack without the message in front of it, which may have several lines. */
function placesOf(error: Error): string[] {
  const stack = error.stack ?? ''
  const start = stack.indexOf(error.message)
  const behind = error.message !== '' && start !== -1 ? stack.slice(start + error.message.length) : stack
  return behind.split('\n').filter((line) => PLACE.test(line))
}
