import type { Proposal, Standing } from '../core/firmwareTable/propose.ts'
import type { Figures } from './figures.ts'
import { sayLimit } from './limits.ts'
import { KIND_WORDS } from './options.ts'
import { capital, curly, fill, oneLine } from './say.ts'
import { type Tables, wordsIn } from './tables.ts'

type Row = { readonly label: string; readonly text: string }

/** What an owner's table says beside what is written down, before it is sent. */
export type OwnerReadingSaid = {
  /** Board and processor are both other ones than written down. */
  readonly isOther: boolean
  readonly differs: readonly Row[]
  readonly new: readonly Row[]
  readonly same: readonly Row[]
}

type Words = Tables['ownerReading']

/** How a part of the table is told beside what is written down. */
function lineOf(
  standing: Standing,
  { isRead, isWritten }: { readonly isRead: boolean; readonly isWritten: boolean },
  w: Words,
): string {
  if (!isRead) return w.gone
  if (standing === 'added') return w.added
  return isWritten && standing !== 'agrees' ? w.written : w.plain
}

/** Hints that are never counted are left to the shop: they tell an owner nothing. */
export function sayOwnerReading({ parts, limits, notes }: Proposal, figures: Figures): OwnerReadingSaid {
  const { ownerReading: w, answer, limits: limitWords } = wordsIn(figures.language)
  const rows = [
    ...parts.map(({ kind, standing, written, read, mayBeSame }) => {
      const word = figures.language === 'en' ? KIND_WORDS[kind] : answer.kinds[kind]
      const values = { read: oneLine(read?.name ?? ''), written: oneLine(written?.name ?? '') }
      const line = lineOf(standing, { isRead: read !== undefined, isWritten: written !== undefined }, w)
      const text = mayBeSame === true ? `${fill(line, values)} ${w.mayBeSame}` : fill(line, values)
      return { standing, row: { label: capital(word, figures.language), text } }
    }),
    ...limits
      .filter(({ counted }) => counted)
      .map(({ key, value, standing, today }) => {
        const values = { read: figures.named(key, value), written: sayLimit(key, today, figures).value }
        const text = fill(standing === 'differs' ? w.written : w.plain, values)
        return { standing, row: { label: curly(limitWords[key].label), text } }
      }),
  ]
  const of = (isIn: (standing: string) => boolean) =>
    rows.filter(({ standing }) => isIn(standing)).map(({ row }) => row)
  return {
    isOther: notes.some(({ what }) => what === 'another machine'),
    differs: of((standing) => standing !== 'agrees' && standing !== 'new'),
    new: of((standing) => standing === 'new'),
    same: of((standing) => standing === 'agrees'),
  }
}
