import { findAnything, HIT_KINDS, type Hit, type HitKind, type Hits } from '../store/findAnything.ts'
import { machineOfLabel } from '../store/labels.ts'
import type { Store } from '../store/open.ts'
import { LABEL_CODE } from './caseLabels.ts'

export type { Hit, HitKind, Hits }
export { HIT_KINDS }

/** What was found, and what among it is called exactly so. */
export type Found = {
  readonly hits: Hits
  readonly exact: readonly { readonly kind: HitKind; readonly id: string }[]
}

const fold = (text: string): string => text.trim().toLocaleLowerCase('und')

/** A machine's number as tags are numbered: `42` means `M-0042`. */
const tagOfNumber = (typed: string): readonly string[] =>
  /^\d{1,9}$/.test(typed) ? [`M-${typed.replace(/^0+(?=\d)/, '').padStart(4, '0')}`] : []

/** The code of a case label, alone or as the address that its QR code holds; readers of such codes type it. */
function labelIn(typed: string): string | undefined {
  const code = typed.slice(typed.lastIndexOf('/') + 1).toUpperCase()
  return LABEL_CODE.test(code) ? code : undefined
}

const keysOf = (typed: string): string[] => [
  ...new Set([typed, typed.toLocaleLowerCase('und'), typed.toLocaleUpperCase('und'), ...tagOfNumber(typed)]),
]

/** Things of every kind that somebody may mean by what they typed, at most so many of a kind. */
export async function findThings({ db }: Store, text: string, most: number): Promise<Found> {
  const typed = text.trim()
  const label = labelIn(typed)
  const labelled = label === undefined ? undefined : await machineOfLabel(db, label)
  const hits = await findAnything(db, { text: labelled ?? typed, keys: keysOf(labelled ?? typed), most })
  const numbered = tagOfNumber(typed)
  const isExact = (kind: HitKind, { id, name, beside }: Hit): boolean => {
    if (kind === 'machine' && (id === labelled || numbered.includes(id))) return true
    // The key of a mail or a plan is a number that nobody sees.
    if (kind === 'mail') return false
    if (kind === 'plan') return fold(name ?? '') === fold(typed)
    if (fold(id) === fold(typed)) return true
    if (kind === 'customer') return fold(name ?? '') === fold(typed) || fold(beside ?? '') === fold(typed)
    return (kind === 'part' || kind === 'title') && fold(name ?? '') === fold(typed)
  }
  const exact = HIT_KINDS.flatMap((kind) =>
    hits[kind].filter((hit) => isExact(kind, hit)).map(({ id }) => ({ kind, id })),
  )
  return { hits, exact }
}
