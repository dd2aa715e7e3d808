import type { Shop } from '../core/answer.ts'
import type { Job, OwnerReport, PartOut } from '../core/job/job.ts'
import { type Kept, overall } from '../core/job/promise.ts'
import type { Warranty } from '../core/job/warranty.ts'
import type { Figures } from './figures.ts'
import { greetingFor } from './greeting.ts'
import { bare, sayKept } from './job.ts'
import { fill, oneLine } from './say.ts'
import { wordsIn } from './tables.ts'
import { plainSpaces } from './wrap.ts'

/** Everything the text to the owner says. */
export type JobDone = {
  readonly job: Job
  readonly shop: Pick<Shop, 'name' | 'builder'>
  readonly customerName?: string | undefined
  /** What went in and what was done, in words. */
  readonly what: string
  readonly kept: readonly Kept[]
  /** What the owner wants at least. */
  readonly targetFps: number
  readonly reports: readonly OwnerReport[]
  readonly outs: readonly PartOut[]
  readonly warranties: readonly Warranty[]
  partName(id: string): string
  titleName(id: string): string
}

const wordsFor = ({ language }: Figures) => wordsIn(language).told

/** The text that tells the owner what was done and whether the promise was kept; short enough for a chat. */
export function jobDoneText(done: JobDone, figures: Figures): string {
  const { job, shop, kept } = done
  const words = wordsFor(figures)
  const { fittedBy } = job
  const tag = oneLine(job.machineTag)
  const head = fill(fittedBy === 'shop' ? words.ready : words.home, { tag })
  const missed = overall(kept) === 'missed, worse' ? [words.miss] : []
  const blocks = [
    [greetingFor(done.customerName, { plain: words.greetingPlain, named: words.greeting })],
    [head, fill(words.what, { what: oneLine(done.what) })],
    [...kept.map((k) => promiseLine(k, done, figures)), ...missed],
    done.reports.map(({ titleId, averageFps }) =>
      fill(words.reported, {
        title: done.titleName(titleId),
        reported: figures.fpsAgainst(averageFps, done.targetFps),
      }),
    ),
    [...priceLines(job, figures), ...outLines(done, figures)],
    warrantyLines(done, figures),
    [words.reply],
    [words.regards, fill(words.sign, { builder: oneLine(shop.builder), shop: oneLine(shop.name) })],
  ]
  return plainSpaces(
    blocks
      .filter((lines) => lines.length > 0)
      .map((lines) => lines.join('\n'))
      .join('\n\n'),
  )
}

const promiseLine = (kept: Kept, { titleName, targetFps }: JobDone, figures: Figures): string =>
  fill(wordsFor(figures).promise, {
    title: oneLine(titleName(kept.promised.titleId)),
    before: figures.fpsAgainst(kept.promised.beforeFps, targetFps),
    says: sayKept(kept, figures, targetFps),
  })

/** Nothing before the price is settled. */
function priceLines({ settledMinor, agreedMinor, depositMinor }: Job, figures: Figures): string[] {
  if (settledMinor === undefined) return []
  const words = wordsFor(figures)
  if (settledMinor < 0) return paidOut(-settledMinor, depositMinor ?? 0, figures)
  const price = figures.money(settledMinor)
  const line =
    settledMinor === agreedMinor
      ? fill(words.price, { price })
      : fill(words.priceOther, { price, agreed: figures.money(agreedMinor) })
  if (depositMinor === undefined || depositMinor === 0) return [line]
  const due = settledMinor - depositMinor
  const form = due > 0 ? words.deposit : due < 0 ? words.depositOver : words.depositEven
  return [line, fill(form, { deposit: figures.money(depositMinor), due: figures.money(Math.abs(due)) })]
}

/** Where the shop pays, a deposit comes back on top. */
function paidOut(paysMinor: number, depositMinor: number, figures: Figures): string[] {
  const words = wordsFor(figures)
  const line = fill(words.pays, { price: figures.money(paysMinor) })
  if (depositMinor === 0) return [line]
  const due = figures.money(paysMinor + depositMinor)
  return [line, fill(words.depositBack, { deposit: figures.money(depositMinor), due })]
}

type Outs = Pick<JobDone, 'outs' | 'warranties' | 'partName'>

/** What becomes of each old part. */
export const outLines = (done: Outs, figures: Figures): string[] =>
  done.outs.map((out) => outLine(out, done, figures))

function outLine({ outcome, partId, creditMinor }: PartOut, { partName }: Outs, figures: Figures): string {
  const form = outcome === 'on the shelf' && creditMinor === 0 ? 'on the shelf, no credit' : outcome
  const values = { part: oneLine(partName(partId)), credit: figures.money(creditMinor) }
  return fill(wordsFor(figures).out[form], values)
}

/** One line a part, however many of it went in. */
export function warrantyLines({ warranties, partName }: Outs, figures: Figures): string[] {
  const words = wordsFor(figures)
  const lines = warranties.map(({ partId, until, endsWith }) => {
    const line = fill(words.warranty, { part: oneLine(partName(partId)), date: figures.date(until) })
    return endsWith === undefined
      ? line
      : `${line} ${fill(words.warrantyEnds, { ends: bare(oneLine(endsWith)) })}`
  })
  return [...new Set(lines)]
}
