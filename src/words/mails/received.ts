import type { Figures } from '../figures.ts'
import { fill, oneLine } from '../say.ts'
import type { Notice } from './notice.ts'
import { mailto, mailWords, noticeFrom, type Parties } from './parts.ts'

export type Received = Parties & {
  readonly tag: string
  readonly question: string
  readonly askedAt: string
  /** When the shop answers by, where it says so. */
  readonly answerBy?: string | undefined
  /** Names of titles with their settings in words. */
  readonly games: readonly { readonly title: string; readonly setting: string }[]
  readonly targetFps?: number | undefined
  readonly budgetMinor?: number | undefined
  /** The display in words, such as "1920×1080, 75 Hz". */
  readonly display?: string | undefined
}

/** "We have your question": the words that came, what we go by, and by when an answer is there. */
export function receivedMail(from: Received, figures: Figures): Notice {
  const { w } = mailWords(figures)
  const r = w.received
  const tag = oneLine(from.tag)
  const date = from.answerBy === undefined ? undefined : figures.date(from.answerBy)
  const facts = [
    ...from.games.map(({ title, setting }) => ({ label: oneLine(title), text: oneLine(setting) })),
    ...(from.targetFps === undefined
      ? []
      : [{ label: r.target, text: fill(r.targetSays, { target: figures.fps(from.targetFps) }) }]),
    ...(from.budgetMinor === undefined
      ? []
      : [{ label: r.budget, text: fill(r.budgetSays, { budget: figures.money(from.budgetMinor) }) }]),
    ...(from.display === undefined ? [] : [{ label: r.display, text: oneLine(from.display) }]),
  ]
  const lacks = from.games.length > 0 ? [] : [from.display === undefined ? r.noGamesDisplay : r.noGames]
  return noticeFrom(
    from,
    {
      subject: fill(r.subject, { tag }),
      preheader:
        lacks.length > 0
          ? r.preheaderNoGames
          : date === undefined
            ? r.preheaderSoon
            : fill(r.preheader, { date }),
      lead: {
        answer: date !== undefined ? fill(r.lead, { date }) : lacks.length > 0 ? r.leadLacks : r.leadSoon,
        more: lacks.length > 0 ? lacks : [r.nothing],
      },
      reply: {
        words: r.replyWords,
        href: mailto(from.shop.email, fill(r.replySubject, { tag })),
        note: r.missing,
        text: r.missing,
      },
      blocks: [
        { is: 'quote', head: r.head, words: oneLine(from.question) },
        ...(facts.length === 0 ? [] : [{ is: 'facts', head: r.facts, rows: facts } as const]),
        { is: 'says', head: r.later, says: [r.laterSays] },
      ],
      next:
        lacks.length > 0
          ? from.display === undefined
            ? w.next.gamesDisplay
            : w.next.games
          : date === undefined
            ? w.next.wait
            : fill(w.next.waitUntil, { date }),
      why: fill(w.foot.asked, { date: figures.date(from.askedAt) }),
    },
    figures,
  )
}
