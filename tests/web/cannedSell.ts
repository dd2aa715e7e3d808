import type { AnswerInputs } from '../../src/core/answer.ts'
import { partsOf } from '../../src/core/build.ts'
import { limitsOf } from '../../src/core/limits/resolve.ts'
import type { Sale } from '../../src/core/sale/sale.ts'
import { nextStep, type SaleFacts, standingOf } from '../../src/core/sale/steps.ts'
import { saleSums } from '../../src/core/sale/sums.ts'
import { notMeasured } from '../../src/core/sale/tapeMeasure.ts'
import { renderSheet } from '../../src/mail/render.ts'
import { failed, ok } from '../../src/problem.ts'
import type { SaleStock } from '../../src/uses/sellViews.ts'
import type { SellUses } from '../../src/web/sellUses.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { saleLetter } from '../../src/words/sellMessage.ts'
import { sheetMail } from '../../src/words/sheetMail.ts'
import { cannedSheetUses } from './cannedSheet.ts'
import type { PageState } from './states.ts'

const stockOf = ({ shelf, parts }: AnswerInputs): SaleStock => ({
  parts,
  shelf: shelf.flatMap((item, i) => {
    const part = parts.find(({ id }) => id === item.partId)
    const putAside = i === 0 ? [{ jobId: 'J-0001', quantity: 1 }] : []
    return part === undefined ? [] : [{ item, part, standing: item.quantity + putAside.length, putAside }]
  }),
})

const NO_FACTS: SaleFacts = {
  ...{ parts: 0, wasRead: false, notMeasured: 0, runs: 0, sheetSeen: false },
  ...{ drafted: false, labelled: false, handedOver: false, leftOut: [] },
}

/** The canned machine on its way out, in one state; the shelf never moves. */
export function cannedSellUses(
  from: AnswerInputs,
  calls: [name: string, ...given: unknown[]][],
  now: string,
  changes: Partial<Sale> = {},
): SellUses {
  const { machine, shop, customer } = from
  const { tag } = machine
  const limits = limitsOf(machine.build, machine.claims)
  const sale: Sale = {
    ...{ machineTag: tag, startedAt: now, priceMinor: 64900, otherCostMinor: 1250 },
    ...{ leftOut: ['reading'], madeMachine: true, madeCustomer: true },
    parts: partsOf(machine.build).map(({ id }, i) => ({
      ...{ id: String(i + 1), partId: id },
      ...(i % 2 === 0 && { itemId: `S-${i}`, costMinor: 3000 + i }),
    })),
    ...changes,
  }
  const facts: SaleFacts = {
    ...NO_FACTS,
    ...{ parts: sale.parts.length, notMeasured: notMeasured(limits), leftOut: sale.leftOut },
    handedOver: sale.handedAt !== undefined,
  }
  const { priceMinor, otherCostMinor } = sale
  const costs = sale.parts.map(({ costMinor }) => costMinor)
  const notFound = failed({ code: 'not found', field: 'machine', next: 'There is no machine with this tag.' })
  const done =
    (name: string) =>
    async (asked: string, ...given: unknown[]) => {
      calls.push([name, asked, ...given])
      return asked === tag ? ok({ tag }) : notFound
    }
  const line = { tag, ownerName: customer?.name, startedAt: now }
  return {
    sales: async () => ({
      open: [{ ...line, next: nextStep(facts) }],
      handed: [{ ...line, handedAt: now }],
      ...stockOf(from),
      nextTag: 'T-0008',
    }),
    saleRecords: async () => [{ ...line, priceMinor, parts: [], steps: standingOf(facts) }],
    sale: async (asked) =>
      asked === tag
        ? ok({
            tag,
            view: {
              ...{ sale, facts, standing: standingOf(facts), next: nextStep(facts) },
              machine: { owner: customer, soldAt: now },
              sums: saleSums({ costs, otherCostMinor, priceMinor }, shop.policy),
              parts: sale.parts.flatMap((row) => {
                const part = partsOf(machine.build).find(({ id }) => id === row.partId)
                return part === undefined ? [] : [{ ...row, part }]
              }),
              stock: stockOf(from),
            },
          })
        : notFound,
    sellMachine: async (sold) => {
      calls.push(['sellMachine', sold])
      return sold.tag === tag
        ? failed({ code: 'duplicate', field: 'tag', got: tag, next: 'Another machine has this tag.' })
        : ok({ tag: sold.tag, newParts: [] })
    },
    addToSale: async (asked, more) => {
      calls.push(['addToSale', asked, more])
      return asked === tag ? ok({ tag, newParts: [] }) : notFound
    },
    saleMessage: async (asked, link) => {
      const shown = await cannedSheetUses(from, calls, now).limitsSheet(asked)
      if (!shown.ok) return shown
      const words = { opening: 'Good to have met you.' }
      const letter = saleLetter(
        shown.value.sheet,
        { shop, ownerName: customer?.name, words, link },
        figuresFor(shop),
      )
      const owner = { ownerName: customer?.name, ownerEmail: customer?.email }
      return ok({ ...letter, tag, words, isWritten: true, ...owner })
    },
    sheetMail: async (asked) => {
      const shown = await cannedSheetUses(from, calls, now).limitsSheet(asked)
      if (!shown.ok) return shown
      const to = { shop, ownerName: customer?.name }
      return ok(await renderSheet(sheetMail(shown.value.sheet, to, figuresFor(shop))))
    },
    sheetMailEml: async (asked, link) => {
      calls.push(['sheetMailEml', asked, link])
      return asked === tag
        ? ok({ fileName: `${tag}-limits.eml`, bytes: new TextEncoder().encode('Subject: x') })
        : notFound
    },
    machineOn: async (asked) =>
      asked === tag ? ok({ tag, parts: partsOf(machine.build), limits }) : notFound,
    tape: async (asked) => (asked === tag ? ok({ tag, limits, isSelling: true }) : notFound),
    startSale: done('startSale'),
    putPartBack: done('putPartBack'),
    takeSaleBack: done('takeSaleBack'),
    leaveOutStep: done('leaveOutStep'),
    sheetIsRight: done('sheetIsRight'),
    setSaleMoney: done('setSaleMoney'),
    draftSaleMessage: done('draftSaleMessage'),
    handOver: done('handOver'),
    takeHandingBack: done('takeHandingBack'),
    recordLimits: done('recordLimits'),
  }
}

const emptyShelf: Partial<SellUses> = {
  sales: async () => ({ open: [], handed: [], shelf: [], parts: [], nextTag: 'M-0001' }),
}

const noSale: Partial<SellUses> = { sale: async (tag) => ok({ tag }) }

/** Selling with and without a shelf, what was typed wrongly, a sale on its way and one that is none, tape and message. */
export const SELL_STATES: readonly PageState[] = [
  { name: 'sell', path: '/sell' },
  { name: 'sell-empty-shelf', path: '/sell', uses: emptyShelf },
  {
    ...{ name: 'sell-wrong', path: '/sell', status: 422 },
    form: { tag: '', 'take.S-1': 'two', 'cost.S-3': '12', ownerEmail: 'x@example.com', 'part.case.0': '?' },
  },
  { name: 'sale', path: '/sell/T-0007?made' },
  { name: 'sale-none', path: '/sell/T-0007', uses: noSale },
  { name: 'sale-parts', path: '/sell/T-0007/parts' },
  {
    ...{ name: 'sale-money-wrong', path: '/sell/T-0007/money', status: 422 },
    form: { priceMinor: 'much', 'cost.1': '-3' },
  },
  { name: 'sale-message', path: '/sell/T-0007/message' },
  { name: 'sale-message-link', path: '/sell/T-0007/message/link', form: {} },
  { name: 'machine-on-a-day', path: '/machines/T-0007/on?day=2026-01-05' },
  { name: 'tape-measure', path: '/machines/T-0007/measure?saved=2' },
  {
    ...{ name: 'tape-measure-wrong', path: '/machines/T-0007/measure', status: 422 },
    form: { 'limit.cardRoomMm': 'long', 'limit.bays25': '99' },
  },
]
