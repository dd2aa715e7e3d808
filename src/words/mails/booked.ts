import type { CautionId } from '../../core/fit/finding.ts'
import type { Grade } from '../../core/gain/gain.ts'
import type { Job } from '../../core/job/job.ts'
import type { PartKind } from '../../core/part.ts'
import type { Letter, PriceRow } from '../answer/letter.ts'
import { cautionsForOpening, sayCaution } from '../cautions.ts'
import type { Figures } from '../figures.ts'
import { curly, fill, oneLine } from '../say.ts'
import type { Tables } from '../tables.ts'
import { type Playing, promisedGames } from './games.ts'
import type { Block, Notice } from './notice.ts'
import { addressOf, mailto, mailWords, noticeFrom, type Parties } from './parts.ts'

export type Booked = Parties &
  Playing & {
    readonly job: Pick<
      Job,
      'machineTag' | 'fittedBy' | 'agreedMinor' | 'bookedFor' | 'depositMinor' | 'promised' | 'agreedAt'
    >
    /** What goes in and what is done, in words. */
    readonly what: string
    /** Names of wanted titles in which nothing is promised. */
    readonly notPromised: readonly string[]
    /** How long the shop's work takes; absent where nobody says, and where the owner fits the parts. */
    readonly minutes?: number | undefined
    /** Kinds of the old parts that the price counts in exchange; of one that nobody knows any more, none, and `takesOldParts` says it. */
    readonly takesKinds?: readonly PartKind[] | undefined
    /** Whether the price counts old parts in exchange. */
    readonly takesOldParts: boolean
    /** What becomes of old parts that are not taken in exchange, in sentences. */
    readonly oldParts?: readonly string[] | undefined
    /** The price where none of the old parts passes its test, in minor units; absent where nobody worked it out. */
    readonly failedMinor?: number | undefined
    /** How the figures are known, by title. */
    readonly grades?: Readonly<Partial<Record<string, Grade>>> | undefined
    /** What the board can and cannot take, as the answer told it. */
    readonly board?: Letter['board']
    /** What a finding of the change warns of. */
    readonly cautions: readonly CautionId[]
  }

/** "It is booked": what is done and when, what it costs, and what is promised. */
export function bookedMail(from: Booked, figures: Figures): Notice {
  const { w } = mailWords(figures)
  const b = w.booked
  const { job } = from
  const tag = oneLine(job.machineTag)
  const home = job.fittedBy === 'owner'
  const { bookedFor } = job
  const date = bookedFor === undefined ? undefined : figures.date(bookedFor)
  const when = bookedFor === undefined ? undefined : figures.dateTime(bookedFor)
  const lead = home ? b.leadHome : when === undefined ? b.leadAgreed : fill(b.leadBooked, { when })
  const what = fill(home ? b.whatHome : b.what, { what: oneLine(from.what) })
  const isDated = date !== undefined && !home
  return noticeFrom(
    { ...from, tag },
    {
      subject: isDated ? fill(b.subject, { tag, date }) : fill(b.subjectPlain, { tag }),
      preheader: b.preheader,
      lead: {
        answer: lead,
        more: [what, ...timeOf(from, figures), ...whereOf(from, w), isDated ? b.otherDay : b.otherPlain],
      },
      reply: {
        words: isDated ? b.replyWords : b.replyAsk,
        href: mailto(from.shop.email, fill(b.replySubject, { tag })),
        note: home ? b.noteHome : b.note,
        text: home ? b.noteHome : b.text,
      },
      blocks: [
        priceBlock(from, figures),
        promiseBlock(from, figures),
        beforeBlock(from, figures),
        ...(from.board === undefined ? [] : [{ is: 'items', ...from.board } as const]),
        ...measureBlock(from, figures),
      ],
      next: nextOf(from, figures),
      why: w.foot.bought,
    },
    figures,
  )
}

/** The one thing to do now. */
function nextOf({ job, shop }: Booked, figures: Figures): string {
  const { w } = mailWords(figures)
  if (job.fittedBy === 'owner') return w.next.home
  if (job.bookedFor === undefined) return w.next.waitDay
  return fill(w.next.bring, { when: figures.dateTime(job.bookedFor), address: addressOf(shop, w) })
}

/** How long the shop works on it. */
function timeOf({ job, minutes = 0 }: Booked, figures: Figures): readonly string[] {
  const { time } = mailWords(figures).w.booked
  return job.fittedBy === 'owner' || minutes === 0
    ? []
    : [fill(time, { minutes: figures.named('workMinutes', minutes) })]
}

/** Where the machine goes, or how parts go to and fro. */
function whereOf({ job, shop }: Booked, w: Tables['mails']): readonly string[] {
  if (job.fittedBy === 'owner') return [w.booked.handover]
  const address = addressOf(shop, w)
  return [fill(job.bookedFor === undefined ? w.booked.whereLater : w.booked.where, { address })]
}

function priceBlock(
  { job, takesOldParts, takesKinds = [], oldParts = [], failedMinor }: Booked,
  figures: Figures,
): Block {
  const { w, tables, list } = mailWords(figures)
  const b = w.booked
  const old = takesKinds.length === 0 ? b.oldPart : list(takesKinds.map((kind) => tables.answer.old.it[kind]))
  const { agreedMinor, depositMinor = 0 } = job
  const due = agreedMinor - depositMinor
  const home = job.fittedBy === 'owner'
  const exact = [agreedMinor, depositMinor].some((minor) => minor % 10 ** figures.minorDigits !== 0)
  const money = (minor: number) => figures.money(minor, exact)
  const rows: readonly PriceRow[] =
    depositMinor === 0 && agreedMinor >= 0
      ? [{ what: home ? b.dueAllHome : b.dueAll, figure: money(agreedMinor), sum: true }]
      : [
          { what: home ? b.agreedHome : b.agreed, figure: money(agreedMinor), sum: false },
          ...(depositMinor === 0 ? [] : [{ what: b.deposit, figure: money(-depositMinor), sum: false }]),
          due < 0
            ? { what: b.back, figure: money(-due), sum: true }
            : { what: due === 0 ? b.dueNothing : b.due, figure: money(due), sum: true },
        ]
  const tested =
    failedMinor === undefined
      ? fill(b.tested, { old })
      : fill(home ? b.testedPriceHome : b.testedPrice, {
          old,
          price: money(failedMinor),
          due: money(failedMinor - depositMinor),
        })
  const back = depositMinor > 0 ? [fill(b.depositBack, { deposit: money(depositMinor) })] : []
  const notes = [b.priceNote, ...back, ...(takesOldParts ? [tested] : []), ...oldParts]
  return { is: 'price', head: b.priceHead, rows, notes }
}

function promiseBlock(from: Booked, figures: Figures): Block {
  const { w, list, some } = mailWords(figures)
  const b = w.booked
  const left = from.notPromised.map(oneLine)
  const home = from.job.fittedBy === 'owner'
  const isRanged = from.job.promised.some(({ afterFpsLow, afterFpsHigh }) => afterFpsLow < afterFpsHigh)
  const open = left.length === 0 ? [] : [some(b.notPromised, left.length, { titles: list(left) })]
  return from.job.promised.length === 0
    ? { is: 'says', head: b.promiseHead, says: [b.promiseNone, ...open] }
    : {
        is: 'games',
        games: promisedGames(
          from.job.promised,
          from,
          from.grades ?? {},
          [...open, home ? b.againHome : b.again, ...(isRanged ? [b.least] : [])],
          figures,
        ),
      }
}

/** Where the board's list says what to measure, and the owner does not open the machine anyway. */
function measureBlock({ job, board }: Booked, figures: Figures): readonly Block[] {
  const b = mailWords(figures).w.booked
  const isOpen = board?.items.some(({ verdict }) => verdict === "can't tell") === true
  return job.fittedBy === 'owner' || !isOpen
    ? []
    : [
        {
          is: 'orders',
          head: b.measure,
          lead: [b.measureLead],
          rows: cautionsForOpening([]).map((id) => curly(sayCaution(id, figures.language).short)),
        },
      ]
}

function beforeBlock({ job, cautions }: Booked, figures: Figures): Block {
  const b = mailWords(figures).w.booked
  const short = (id: CautionId) => curly(sayCaution(id, figures.language).short)
  if (job.fittedBy === 'owner')
    return { is: 'orders', head: b.beforeHome, rows: cautionsForOpening(cautions).map(short) }
  const key = cautions.includes('recovery-key') ? [b.recoveryKey] : []
  return { is: 'orders', head: b.before, rows: [b.backup, ...key] }
}
