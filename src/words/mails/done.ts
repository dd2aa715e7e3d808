import type { CautionId } from '../../core/fit/finding.ts'
import { type Kept, type Outcome, overall } from '../../core/job/promise.ts'
import type { LimitKey } from '../../core/limits/limit.ts'
import type { LimitsSheet } from '../../core/sheet/sheet.ts'
import type { PriceRow } from '../answer/letter.ts'
import { cautionsForOpening, sayCaution } from '../cautions.ts'
import type { Figures } from '../figures.ts'
import { type JobDone, outLines, warrantyLines } from '../jobDone.ts'
import { customerLabel } from '../limits.ts'
import { saySheet } from '../limitsSheet.ts'
import { curly, fill, oneLine } from '../say.ts'
import type { Tables } from '../tables.ts'
import { keptGames } from './games.ts'
import type { Block, Notice } from './notice.ts'
import {
  addressOf,
  firstThatFits,
  mailto,
  mailWords,
  noticeFrom,
  type Parties,
  SUBJECT_MOST,
} from './parts.ts'

/** What a miss asks for beside the figures; the builder writes it. */
export type Miss = { readonly checked?: string | undefined; readonly choices: readonly string[] }

export type DoneMail = Parties &
  Omit<JobDone, 'shop' | 'customerName'> & {
    settingName(id: string): string
    readonly miss?: Miss | undefined
    /** The machine's limits sheet after the work. */
    readonly sheet?: LimitsSheet | undefined
  }

/** "It is done": what was done, before and after in each game against the promise, and what is paid. */
export function doneMail(from: DoneMail, figures: Figures): Notice {
  const { w, list } = mailWords(figures)
  const d = w.done
  const { job, kept } = from
  const tag = oneLine(job.machineTag)
  const outcome = overall(kept)
  const [first] = firstOf(kept, outcome)
  const values = {
    tag,
    title: first === undefined ? '' : oneLine(from.titleName(first.promised.titleId)),
    promised: first === undefined ? '' : figures.fpsAgainst(first.promised.afterFps, from.targetFps),
    measured: first?.measuredFps === undefined ? '' : figures.fpsAgainst(first.measuredFps, from.targetFps),
  }
  const missed = outcome === 'missed, worse'
  const shorter = {
    kept: [d.subjectKept],
    'missed, better': [d.subjectBetter],
    'missed, worse': [d.subjectWorse],
    'not measured': [],
  }[outcome]
  const lines = [kept.length === 0 ? d.subjectDone : d.subject[outcome], ...shorter].map((line) =>
    fill(line, values),
  )
  const home = job.fittedBy === 'owner'
  const isOpen = kept.some((one) => one.outcome === 'not measured')
  const address = addressOf(from.shop, w)
  const openTitles = list(openOnes(from))
  return noticeFrom(
    { ...from, tag },
    {
      subject: firstThatFits(lines, SUBJECT_MOST),
      preheader: fill(d.preheader[outcome], values),
      lead: {
        answer: fill(
          missed ? (home ? d.homeMissed : d.readyMissed) : home ? d.home : isOpen ? d.readyOpen : d.ready,
          values,
        ),
        more: [
          kept.length === 0 ? d.none : d.verdict[outcome],
          fill(d.what, { what: oneLine(from.what) }),
          ...collectOf(d, { home, missed, isOpen, address }),
        ],
      },
      reply: {
        words: missed ? d.replyMissed : d.replyWords,
        href: mailto(from.shop.email, fill(d.replySubject, { tag })),
        note: missed ? d.noteMissed : isOpen && !home ? d.noteOpen : d.note,
        text: missed ? d.textMissed : isOpen && !home ? d.textOpen : d.text,
      },
      blocks: [
        ...gamesBlocks(from, figures),
        priceBlock(from, missed, figures),
        ...(missed ? missBlocks(from.miss, figures) : []),
        ...partsBlocks(from, missed, figures),
        ...neverBlocks(from, figures),
        { is: 'says', says: [d.after, d.odd] },
      ],
      next: fill(
        nextOf(w.next, { home, missed, isOpen, hasChoices: (from.miss?.choices ?? []).length > 0 }),
        {
          titles: openTitles,
          address,
        },
      ),
      why: w.foot.bought,
    },
    figures,
  )
}

/** The one thing to do now. */
function nextOf(
  next: Tables['mails']['next'],
  is: {
    readonly home: boolean
    readonly missed: boolean
    readonly isOpen: boolean
    readonly hasChoices: boolean
  },
): string {
  if (is.missed) return is.hasChoices ? next.choose : next.askChoices
  if (is.isOpen) return is.home ? next.play : next.waitMeasured
  return is.home ? next.nothing : next.collect
}

/** Names of the games that are not measured yet. */
const openOnes = ({ kept, titleName }: DoneMail): readonly string[] =>
  kept
    .filter(({ outcome }) => outcome === 'not measured')
    .map(({ promised }) => oneLine(titleName(promised.titleId)))

/** Where it is, and what comes before it is collected. */
function collectOf(
  d: Tables['mails']['done'],
  is: {
    readonly home: boolean
    readonly missed: boolean
    readonly isOpen: boolean
    readonly address: string
  },
): readonly string[] {
  if (is.home) return is.missed ? [d.chooseHome] : []
  return [fill(is.missed ? d.collectMissed : is.isOpen ? d.collectOpen : d.collect, { address: is.address })]
}

/** The game that subject and preheader tell: of those with the outcome of the whole. */
const firstOf = (kept: readonly Kept[], outcome: Outcome): readonly Kept[] =>
  kept.filter((k) => k.outcome === outcome)

function gamesBlocks(from: DoneMail, figures: Figures): readonly Block[] {
  const { w } = mailWords(figures)
  const open = openOf(from, figures)
  const reported = from.reports.map(({ titleId, averageFps }) =>
    fill(w.done.reported, {
      title: oneLine(from.titleName(titleId)),
      reported: figures.fpsAgainst(averageFps, from.targetFps),
    }),
  )
  const more = [...open, ...reported]
  if (from.kept.length > 0) return [{ is: 'games', games: keptGames(from.kept, from, more, figures) }]
  return more.length === 0 ? [] : [{ is: 'says', head: w.done.head, says: [...more, w.fps] }]
}

/** Which games are not measured yet, who measures them, and what that needs. */
function openOf(from: DoneMail, figures: Figures): readonly string[] {
  const { w, some, list } = mailWords(figures)
  const { openShop, openHome, openWhen, openMiss } = w.done
  const titles = openOnes(from)
  if (titles.length === 0) return []
  const values = { titles: list(titles) }
  return from.job.fittedBy === 'owner'
    ? [some(openHome, titles.length, values)]
    : [some(openShop, titles.length, values), openWhen, openMiss]
}

function missBlocks(miss: Miss | undefined, figures: Figures): readonly Block[] {
  const d = mailWords(figures).w.done
  const checked = oneLine(miss?.checked ?? '').replace(/[.\s]+$/, '')
  const lead = checked === '' ? [] : [fill(d.checked, { checked })]
  const rows = (miss?.choices ?? []).map(oneLine)
  return rows.length === 0
    ? [{ is: 'says', head: d.missHead, says: [...lead, d.chooseReply] }]
    : [{ is: 'orders', head: d.missHead, lead: [...lead, d.choices], rows }]
}

/**
 * What is left to pay. After a miss nothing of it is changed by itself: the choices come behind it, and who decides
 * stands with the sum. Before the price is settled it is the agreed one.
 */
function priceBlock({ job, shop, miss }: DoneMail, missed: boolean, figures: Figures): Block {
  const d = mailWords(figures).w.done
  const { agreedMinor, depositMinor = 0 } = job
  const settledMinor = job.settledMinor ?? agreedMinor
  const exact = [settledMinor, agreedMinor, depositMinor].some(
    (minor) => minor % 10 ** figures.minorDigits !== 0,
  )
  const money = (minor: number) => figures.money(minor, exact)
  const due = settledMinor - depositMinor
  const other = settledMinor !== agreedMinor
  const rows: readonly PriceRow[] =
    depositMinor === 0
      ? []
      : [
          { what: other ? d.settled : d.agreed, figure: money(settledMinor), sum: false },
          { what: settledMinor < 0 ? d.depositBack : d.deposit, figure: money(-depositMinor), sum: false },
        ]
  const sum: PriceRow =
    due < 0
      ? { what: settledMinor < 0 ? d.pays : d.back, figure: money(-due), sum: true }
      : { what: missed ? d.dueMissed : depositMinor === 0 ? d.total : d.due, figure: money(due), sum: true }
  const paid = depositMinor === 0 ? d.paidNothing : fill(d.paid, { deposit: money(depositMinor) })
  const choice = (miss?.choices ?? []).length > 0 ? d.choiceNote : d.choiceNoteOpen
  const notes = [
    ...(other ? [fill(d.agreedNote, { agreed: money(agreedMinor) })] : []),
    ...(due === 0 ? [d.even] : []),
    ...(job.settledMinor === undefined ? [d.unsettled] : []),
    ...(missed ? [paid, fill(choice, { builder: oneLine(shop.builder) })] : []),
  ]
  return { is: 'price', head: d.priceHead, rows: [...rows, sum], notes }
}

/** What the machine cannot take as it now is, and what nobody knows of it. */
function neverBlocks({ sheet, shop }: DoneMail, figures: Figures): readonly Block[] {
  if (sheet === undefined) return []
  const d = mailWords(figures).w.done
  const { never } = saySheet(sheet, { name: shop.name, contact: shop.email }, figures)
  const labels = sheet.unknown
    .filter((key) => DECIDES.has(key))
    .map((key) => curly(customerLabel(key, figures.language)))
  const rows = never.groups.flatMap((group) => group.rows)
  return [
    ...(rows.length === 0 ? [] : [{ is: 'orders', head: d.never, rows } as const]),
    ...(labels.length === 0
      ? []
      : [{ is: 'orders', head: d.unknownHead, rows: labels, end: d.unknown } as const]),
  ]
}

/** Limits that keep parts out; what else is not known stands on the sheet. */
const DECIDES: ReadonlySet<LimitKey> = new Set([
  ...(['processorPowerW', 'cardRoomMm', 'cardSlots', 'coolerRoomMm', 'supply12VW'] as const),
  ...(['socket', 'memoryType', 'memoryMaxGB', 'cardBracket'] as const),
])

function partsBlocks(from: DoneMail, missed: boolean, figures: Figures): readonly Block[] {
  const d = mailWords(figures).w.done
  const back = missed && from.outs.some(({ outcome }) => outcome === 'on the shelf') ? [d.outMissed] : []
  const rows = [...outLines(from, figures), ...back, ...warrantyLines(from, figures)]
  const given = from.outs.some(({ outcome }) => outcome === 'given back')
  const cautions: readonly CautionId[] = given ? cautionsForOpening([]) : []
  return [
    ...(rows.length === 0 ? [] : [{ is: 'says', head: d.partsHead, says: rows } as const]),
    ...(cautions.length === 0
      ? []
      : [
          {
            is: 'orders',
            head: d.cautions,
            rows: cautions.map((id) => curly(sayCaution(id, figures.language).short)),
          } as const,
        ]),
  ]
}
