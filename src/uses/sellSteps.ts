import type { SaleWords } from '../core/sale/sale.ts'
import { type LeavableStep, standingOf } from '../core/sale/steps.ts'
import { line, lines } from '../input/cells.ts'
import { Refusal } from '../input/refusal.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { deleteHandedSheet, insertHandedSheet } from '../store/handedSheets.ts'
import { loadMachine } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { loadSale, type SaleChange, setCost, updateSale } from '../store/sales.ts'
import { SELL_EN } from '../words/en/sell.ts'
import { figuresOf } from '../words/figures.ts'
import { fill, formOf } from '../words/say.ts'
import { type SaleLetter, saleLetter } from '../words/sellMessage.ts'
import { findTag } from './findMachine.ts'
import { allOrNothing } from './jobs/onJob.ts'
import { viewLimitsSheet } from './limitsSheet.ts'
import { handedAlready, noSale } from './sell.ts'
import { factsOf } from './sellViews.ts'

type Tag = { readonly tag: string }
type Loaded = NonNullable<Awaited<ReturnType<typeof loadSale>>>

/** One transaction about one sale. */
const onSale = (
  store: Store,
  typedTag: string,
  work: (tx: Db, tag: string, sale: Loaded) => Promise<Result<Tag>>,
): Promise<Result<Tag>> =>
  allOrNothing(store, async (tx) => {
    const tag = await findTag(tx, typedTag)
    const sale = tag === undefined ? undefined : await loadSale(tx, tag)
    return tag === undefined || sale === undefined ? failed(noSale(typedTag)) : work(tx, tag, sale)
  })

const change = async (tx: Db, tag: string, changes: SaleChange): Promise<Result<Tag>> => {
  await updateSale(tx, tag, changes)
  return ok({ tag })
}

/** Leaves a step out, or takes it up again. What it would tell stays unknown. */
export const leaveOutStep = (
  store: Store,
  typedTag: string,
  step: LeavableStep,
  isLeftOut: boolean,
): Promise<Result<Tag>> =>
  onSale(store, typedTag, async (tx, tag, { leftOut, handedAt }) => {
    if (handedAt !== undefined) return failed(handedAlready(tag))
    const others = leftOut.filter((other) => other !== step)
    return change(tx, tag, { leftOut: isLeftOut ? [...others, step] : others })
  })

/** Somebody looked through the sheet and called it right. */
export const sheetIsRight = (store: Store, typedTag: string, at: string): Promise<Result<Tag>> =>
  onSale(store, typedTag, (tx, tag) => change(tx, tag, { sheetSeenAt: at }))

/** Amounts as they are known now; absent = not known. `costs` by the row of the sale's part. */
export type SaleMoney = {
  readonly priceMinor?: number | undefined
  readonly otherCostMinor?: number | undefined
  readonly costs: ReadonlyMap<string, number | undefined>
}

export const setSaleMoney = (store: Store, typedTag: string, money: SaleMoney): Promise<Result<Tag>> =>
  onSale(store, typedTag, async (tx, tag, { parts }) => {
    const { priceMinor = null, otherCostMinor = null, costs } = money
    for (const { id } of parts) if (costs.has(id)) await setCost(tx, id, costs.get(id) ?? null)
    return change(tx, tag, { priceMinor, otherCostMinor })
  })

/** Keeps the builder's words; with that the message counts as written. */
export function draftSaleMessage(store: Store, typedTag: string, words: SaleWords): Promise<Result<Tag>> {
  const problems = wordProblems(words)
  if (problems.length > 0) return Promise.resolve(failed(...problems))
  const given = Object.fromEntries(Object.entries(words).filter(([, text]) => text !== undefined))
  return onSale(store, typedTag, (tx, tag) => change(tx, tag, { words: given }))
}

const wordProblems = ({ subject, opening, closing }: SaleWords): Problem[] => {
  const cells = [
    ['subject', subject, line()],
    ['opening', opening, lines()],
    ['closing', closing, lines()],
  ] as const
  const none = { decimalMark: 'either', currencyDigits: 2, timeZone: 'UTC' } as const
  return cells.flatMap(([field, text, cell]): Problem[] => {
    const read = text === undefined ? text : cell.read(text, none)
    return read instanceof Refusal
      ? [{ code: read.code, field, got: text, allowed: cell.allowed, next: read.next }]
      : []
  })
}

export type SaleMessageView = SaleLetter & {
  readonly tag: string
  readonly words: SaleWords
  readonly isWritten: boolean
  readonly ownerName?: string | undefined
  readonly ownerEmail?: string | undefined
}

/** The message as the sheet stands now, in the builder's words around it. */
export async function viewSaleMessage(
  store: Store,
  typedTag: string,
  at: string,
  link?: string,
): Promise<Result<SaleMessageView>> {
  const tag = await findTag(store.db, typedTag)
  const sale = tag === undefined ? undefined : await loadSale(store.db, tag)
  if (tag === undefined || sale === undefined) return failed(noSale(typedTag))
  const shown = await viewLimitsSheet(store, tag, at)
  if (!shown.ok) return shown
  const { sheet, shop } = shown.value
  const owner = (await loadMachine(store.db, tag))?.owner
  const { words } = sale
  const letter = saleLetter(sheet, { shop, ownerName: owner?.name, words, link }, figuresOf(shop, owner))
  return ok({
    ...{ ...letter, tag, words: words ?? {}, isWritten: words !== undefined },
    ...{ ownerName: owner?.name, ownerEmail: owner?.email },
  })
}

/**
 * The machine leaves the shop: the sheet, and the message where one was written, are kept as they are now. Refused while
 * a step is open.
 */
export async function handOver(store: Store, typedTag: string, at: string): Promise<Result<Tag>> {
  const shown = await viewLimitsSheet(store, typedTag, at)
  const message = await viewSaleMessage(store, typedTag, at)
  if (!shown.ok) return shown
  if (!message.ok) return message
  const { sheet } = shown.value
  const { isWritten, subject, text } = message.value
  return onSale(store, typedTag, async (tx, tag, sale) => {
    if (sale.handedAt !== undefined) return failed(handedAlready(tag))
    const loaded = await loadMachine(tx, tag)
    if (loaded === undefined) return failed(noSale(typedTag))
    const open = standingOf(await factsOf(tx, sale, loaded)).filter(
      ({ step, state }) => state === 'open' && step !== 'handing over',
    )
    if (open.length > 0) {
      const next = fill(formOf(SELL_EN.openFirst, open.length, new Intl.PluralRules('en')), {
        n: String(open.length),
        steps: open.map(({ step }) => SELL_EN.steps[step].name).join(', '),
      })
      return failed({ code: 'conflict', field: 'sale', next })
    }
    await insertHandedSheet(tx, tag, { at, sheet, ...(isWritten && { subject, message: text }) })
    return change(tx, tag, { handedAt: at })
  })
}

/** It was not handed over after all: what was kept of it then is gone, and the sale goes on. */
export const takeHandingBack = (store: Store, typedTag: string): Promise<Result<Tag>> =>
  onSale(store, typedTag, async (tx, tag, { handedAt }) => {
    if (handedAt !== undefined) await deleteHandedSheet(tx, tag, handedAt)
    return change(tx, tag, { handedAt: null })
  })
