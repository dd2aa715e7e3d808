/** What a mail that came back says. */
export type Bounce = {
  /** Message-IDs that stand in it, with angle brackets; ours is among them. */
  readonly messageIds: readonly string[]
  /** RFC 3464, 2.3.3. */
  readonly action?: 'failed' | 'delayed' | 'delivered' | 'relayed' | 'expanded' | undefined
  /** RFC 3463, such as 5.1.1. */
  readonly status?: string | undefined
  readonly diagnostic?: string | undefined
}

const FIELD = (name: string) => new RegExp(`^${name}:[ \\t]*(.+(?:\\r?\\n[ \\t]+.+)*)`, 'im')
const MOST = 300

const fieldOf = (text: string, name: string): string | undefined =>
  FIELD(name)
    .exec(text)?.[1]
    ?.replaceAll(/\s*\r?\n\s*/g, ' ')
    .trim()
    .slice(0, MOST)

const ACTIONS = ['failed', 'delayed', 'delivered', 'relayed', 'expanded'] as const

/**
 * Reads a delivery status notification (RFC 3464) as pasted text. Only what it says in that form is told; free text of
 * servers is nobody's standard.
 */
export function readBounce(text: string): Bounce {
  const action = fieldOf(text, 'Action')?.toLowerCase().split(/[\s(]/)[0]
  return {
    messageIds: [...new Set(text.match(/<[A-Za-z0-9!#$%&'*+/=?^_`{|}~.-]+@[A-Za-z0-9.-]+>/g) ?? [])],
    action: ACTIONS.find((one) => one === action),
    status: /\b([245]\.\d{1,3}\.\d{1,3})\b/.exec(fieldOf(text, 'Status') ?? '')?.[1],
    diagnostic: fieldOf(text, 'Diagnostic-Code')?.replace(/^smtp;\s*/i, ''),
  }
}
