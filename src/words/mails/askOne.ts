import type { Answer } from '../../core/answer.ts'
import type { CautionId } from '../../core/fit/finding.ts'
import type { LimitKey } from '../../core/limits/limit.ts'
import { contextOf, optionWords } from '../answer/context.ts'
import { wantedWords } from '../askOwner.ts'
import { cautionsForOpening, sayCaution } from '../cautions.ts'
import type { Figures } from '../figures.ts'
import { photoOf } from '../photoHint.ts'
import { curly, fill, oneLine } from '../say.ts'
import type { Notice } from './notice.ts'
import { mailto, mailWords, noticeFrom, type Parties } from './parts.ts'

export type AskOne = Parties & {
  readonly tag: string
  readonly limitKey: LimitKey
  /** Parts that it decides about, in words. */
  readonly decides: readonly string[]
  /** Whether a hand has to go inside to find it out. */
  readonly isInside: boolean
  /** When the owner asked what waits for it; absent where the shop wants to know for itself. */
  readonly askedAt?: string | undefined
}

/** So many parts are named; the others hang on it just as well. */
const NAMED_MOST = 3

/** What an answer can't tell before this limit is known, in words. */
export function decidedBy(answer: Answer, limitKey: LimitKey): readonly string[] {
  const ctx = contextOf(answer, undefined)
  const waiting = answer.ranking.needsAFact.filter(({ findings }) =>
    findings.some(({ missing }) => missing.some((one) => 'limit' in one && one.limit === limitKey)),
  )
  return [...new Set(waiting.map((option) => optionWords(ctx, option)))].slice(0, NAMED_MOST)
}

const CAUTIONS: readonly CautionId[] = []

/** "We need one thing from you": which, what it is, how it is found out, and what hangs on it. */
export function askOneMail(from: AskOne, figures: Figures): Notice {
  const { w, tables, list, some } = mailWords(figures)
  const a = w.askOne
  const tag = oneLine(from.tag)
  const { meaning, findOut } = tables.limits[from.limitKey]
  const { what, saysMeaning } = wantedWords(from.limitKey, figures.language)
  const photo = photoOf(from.limitKey, tables.askOwner.photos)
  const decides = from.decides.map(oneLine)
  const hangs =
    decides.length === 0 ? a.hangsPlain : some(a.hangsSays, decides.length, { parts: list(decides) })
  const opening = from.isInside ? cautionsForOpening(CAUTIONS) : []
  return noticeFrom(
    from,
    {
      subject: fill(a.subject, { tag }),
      preheader: a.preheader,
      lead: { answer: fill(a.lead, { tag, label: what }), more: [a.noCost] },
      reply:
        from.link === undefined
          ? {
              words: a.replyWords,
              href: mailto(from.shop.email, fill(a.replySubject, { tag })),
              note: fill(a.note, { photo }),
              text: fill(a.text, { photo }),
            }
          : {
              words: a.pageWords,
              href: from.link,
              note: fill(a.pageNote, { photo }),
              text: fill(a.pageText, { link: from.link, photo }),
            },
      blocks: [
        ...(opening.length === 0
          ? []
          : [
              {
                is: 'orders',
                head: a.cautions,
                rows: opening.map((id) => curly(sayCaution(id, figures.language).short)),
              } as const,
            ]),
        {
          is: 'says',
          head: a.head,
          says: [
            [...(saysMeaning ? [curly(meaning)] : []), curly(findOut)].join(' '),
            [fill(a.cannot, { photo }), a.bring].join(' '),
          ],
        },
        { is: 'says', head: a.hangs, says: [[hangs, a.after].join(' ')] },
      ],
      next: fill(from.link === undefined ? w.next.tell : w.next.type, { label: what }),
      why:
        from.askedAt === undefined
          ? w.foot.machine
          : fill(w.foot.needed, { date: figures.date(from.askedAt) }),
    },
    figures,
  )
}
