import type { AnswerInputs } from '../../src/core/answer.ts'
import { partInMindOf } from '../../src/core/asked/inMind.ts'
import { rankInputOf } from '../../src/core/computeAnswer.ts'
import { asItem } from '../../src/core/ranking/buyBelow.ts'
import { preyOf, wantingOf } from '../../src/core/ranking/hunt.ts'
import { whyNot } from '../../src/core/ranking/whyNot.ts'
import type { Findable } from '../../src/core/shop.ts'
import { failed, ok } from '../../src/problem.ts'
import type { FindableLine } from '../../src/uses/findable.ts'
import type { QuestionLine } from '../../src/uses/views.ts'
import type { FindableUses } from '../../src/web/findableUses.ts'
import type { PageState } from './states.ts'

const FOUND: readonly Findable[] = [
  {
    ...{ id: 'F-0001', partId: 'CRD-GRIT6', condition: 'used tested', lowMinor: 7000, highMinor: 9000 },
    ...{ at: '2026-06-01T17:00:00.000Z', warrantyMonths: 3, place: 'a reseller of office returns' },
  },
  {
    ...{ id: 'F-0002', partId: 'CRD-CLIFF16', condition: 'used untested', lowMinor: 20000, highMinor: 20000 },
    ...{ at: '2026-02-01T17:00:00.000Z', note: 'no box' },
  },
  {
    ...{ id: 'F-0003', partId: 'CRD-FLINT8', condition: 'used tested', lowMinor: 9000, highMinor: 11_000 },
    ...{ at: '2026-06-11T17:00:00.000Z', warrantyMonths: 3, place: 'the Saturday market' },
  },
]

const linesOf = ({ parts }: AnswerInputs): FindableLine[] =>
  FOUND.flatMap((findable) => {
    const part = parts.find(({ id }) => id === findable.partId)
    return part === undefined ? [] : [{ findable, part }]
  })

/** Parts that could be bought, as the pages read them; `calls` notes what was asked to change. */
export function cannedFindableUses(from: AnswerInputs, calls: unknown[][]): FindableUses {
  const noted =
    <A extends unknown[]>(name: string, id: (...args: A) => string) =>
    async (...args: A) => {
      calls.push([name, ...args])
      return ok({ id: id(...args) })
    }
  return {
    findable: async () => ({ lines: linesOf(from) }),
    oneFindable: async (id) => {
      const line = linesOf(from).find(({ findable }) => findable.id === id)
      if (line === undefined)
        return failed({ code: 'not found', field: 'findable', got: id, next: 'There is none.' })
      const { at, lowMinor, highMinor } = line.findable
      const seen = [
        { findableId: id, at: '2026-03-01T18:00:00.000Z', lowMinor: 12_000, highMinor: 14_000 },
        { findableId: id, at, lowMinor, highMinor },
      ]
      return ok({ ...line, seen, ...(id === 'F-0002' && { removedAt: '2026-06-10T17:00:00.000Z' }) })
    },
    saveFindable: noted('saveFindable', ({ id }) => id ?? 'F-0003'),
    removeFindable: noted('removeFindable', (id) => id),
    bringBackFindable: noted('bringBackFindable', (id) => id),
    hunt: async () => {
      const lines = linesOf(from)
      const wanting = [...wantingOf(rankInputOf(from), lines)].map((one) => (one === undefined ? [] : [one]))
      const { id, machineTag, words, askedAt, targetFps, budgetMinor } = from.question
      const question: QuestionLine = {
        ...{ id, machineTag, words, askedAt, targetFps, budgetMinor, customerName: from.customer?.name },
        ...{ asks: 'what can I do', state: 'new', openLimits: [], arrivedLimits: [], drafted: false },
      }
      return {
        state: 'told',
        isStale: false,
        told: {
          prey: preyOf(lines, wanting),
          questions: new Map([[id, question]]),
          parts: from.parts,
          at: from.question.askedAt,
        },
      }
    },
    whyNot: async (id, ask) => {
      if (id !== from.question.id)
        return failed({ code: 'not found', field: 'question', got: id, next: 'There is no such question.' })
      const findable = linesOf(from)
      if (ask === undefined) return ok({ inputs: from, findable })
      const input = rankInputOf(from)
      if ('findableId' in ask) {
        const line = findable.find((one) => one.findable.id === ask.findableId)
        if (line === undefined)
          return failed({ code: 'not found', field: 'part', got: ask.findableId, next: 'There is none.' })
        const { highMinor } = line.findable
        const told = whyNot(input, line.part, asItem(line.findable, highMinor), highMinor)
        return ok({ inputs: from, findable, told, seen: line.findable })
      }
      if ('words' in ask) {
        const { part } = partInMindOf(ask, from.parts)
        const priceMinor = ask.priceMinor ?? 0
        const item = {
          id: '~typed',
          partId: part.id,
          condition: 'used',
          quantity: 1,
          at: '',
          priceMinor,
        } as const
        return ok({ inputs: from, findable, told: whyNot(input, part, item, ask.priceMinor) })
      }
      const item = from.shelf.find((one) => one.id === ask.itemId)
      const part = from.parts.find((one) => one.id === item?.partId)
      if (item === undefined || part === undefined)
        return failed({
          code: 'not found',
          field: 'part',
          got: ask.itemId,
          next: 'Choose one from the list.',
        })
      return ok({ inputs: from, findable, told: whyNot(input, part, item, item.priceMinor) })
    },
  }
}

const SEEN = { kind: 'card', partName: 'Grit 6', condition: 'used', lowMinor: '80', at: '2026-06-01' }

export const FINDABLE_STATES: readonly PageState[] = [
  { name: 'findable', path: '/findable' },
  { name: 'findable-removed', path: '/findable?removed=F-0001' },
  { name: 'findable-none', path: '/findable', uses: { findable: async () => ({ lines: [] }) } },
  { name: 'findable-new', path: '/findable/new' },
  {
    name: 'findable-wrong',
    path: '/findable/new',
    status: 422,
    form: { ...SEEN, lowMinor: '8O', partName: '' },
  },
  { name: 'findable-one', path: '/findable/F-0001?saved=1' },
  { name: 'findable-off', path: '/findable/F-0002' },
  { name: 'findable-unknown', path: '/findable/F-9', status: 404 },
  { name: 'why-not', path: '/questions/Q-0007/why-not' },
  { name: 'why-not-ranked', path: '/questions/Q-0007/why-not?part=shelf%3AS-6' },
  { name: 'why-not-out', path: '/questions/Q-0007/why-not?part=shelf%3AS-3' },
  { name: 'why-not-found', path: '/questions/Q-0007/why-not?part=found%3AF-0001' },
  { name: 'why-not-typed', path: '/questions/Q-0007/why-not?kind=supply&words=a+supply&price=40' },
  { name: 'why-not-wrong', path: '/questions/Q-0007/why-not?kind=card&words=&price=4O', status: 422 },
  { name: 'why-not-unknown', path: '/questions/Q-0007/why-not?part=shelf%3AS-99', status: 404 },
  { name: 'hunt', path: '/hunt' },
  {
    name: 'hunt-waiting',
    path: '/hunt',
    uses: { hunt: async () => ({ state: 'under way', progress: { done: 3, of: 8 } }) },
  },
  {
    name: 'hunt-stale',
    path: '/hunt',
    uses: {
      hunt: async () => ({
        state: 'told',
        isStale: true,
        told: { prey: [], questions: new Map(), parts: [], at: '2026-06-12T15:00:00.000Z' },
      }),
    },
  },
  { name: 'hunt-failed', path: '/hunt', uses: { hunt: async () => ({ state: 'failed' }) } },
  {
    name: 'hunt-none',
    path: '/hunt',
    uses: {
      hunt: async () => ({
        state: 'told',
        isStale: false,
        told: { prey: [], questions: new Map(), parts: [], at: '2026-06-12T15:00:00.000Z' },
      }),
    },
  },
]
