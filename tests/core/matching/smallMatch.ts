import { buildOf, partsOf } from '../../../src/core/build.ts'
import type { Fitted, Run } from '../../../src/core/gain/run.ts'
import type { Chosen, MatchCustomer, MatchInputs } from '../../../src/core/matching/ask.ts'
import type { Part } from '../../../src/core/part.ts'
import type { Question } from '../../../src/core/question.ts'
import { machine as bench, card, policy, tower } from '../fit/bench.ts'

/*
 * Invented customers with the machine of the rules' tests, and three cards that were run in it: 25, 50 (as it is sold), 80 and
 * 100 FPS. Opening costs 15.00.
 */
export const AT = '2026-06-01T12:00:00Z'

const cardOf = (id: string): Part => ({
  ...{ ...card, id, name: id },
  // Longer than what is in it: that it goes in is not proven by the old card.
  lengthMm: id === 'FAST' ? 260 : 250,
})
const CARDS: Readonly<Record<string, number>> = { SLOW: 25, 'CARD-OLD': 50, MIDDLE: 80, FAST: 100 }

export type Owned = {
  readonly id: string
  readonly tag: string
  readonly cardId?: string
  readonly cardRoomMm?: number | undefined
  readonly question?: Partial<Question>
  readonly more?: readonly { readonly tag: string; readonly cardId: string }[]
}

const machineOf = (of: Omit<Owned, 'id' | 'more'>): MatchCustomer['machines'][number] => {
  const room = 'cardRoomMm' in of ? of.cardRoomMm : 300
  const parts = partsOf(bench).map((part): Part => {
    if (part.kind === 'card') return cardOf(of.cardId ?? 'CARD-OLD')
    if (part.kind === 'board')
      return { ...part, memoryRateMtsMax: 2666, slotPcieGen: 3, slotLanes: 16, frontHeaders: [] }
    if (part.kind !== 'case') return part
    const { cardRoomMm: _, ...rest } = tower
    return room === undefined ? rest : { ...rest, cardRoomMm: room }
  })
  return {
    machine: { tag: of.tag, build: buildOf(parts), claims: [] },
    seenMemory: MEMORY,
    hasOwnRuns: false,
    question: {
      ...{ id: `Q-${of.tag}`, machineTag: of.tag, words: 'More?', askedAt: '2026-02-01T12:00:00Z' },
      wanted: [{ titleId: 'harbor', settingId: '1080-high', weight: 1 }],
      ...{ display: {}, targetFps: 60, wishes: [], ...of.question },
    },
  }
}

const MEMORY = { memoryType: 'DDR4', rateMts: 2666, channels: 2, totalGB: 16 } as const

export const customerOf = (of: Owned): MatchCustomer => ({
  ...{ id: of.id, mayOffer: true, hasEmail: true },
  machines: [of, ...(of.more ?? [])].map(machineOf),
})

/** Card, slot and processor all have it. */
const LINK = { gen: 3, lanes: 16 }

const fitted = (cardId: string): Fitted => ({
  ...{ processorId: 'CPU-OLD', cardId, memory: MEMORY, link: LINK },
})

const runs: readonly Run[] = Object.entries(CARDS).flatMap(([cardId, averageFps]) =>
  [1, 2].map((n) => ({
    ...{ id: `R-${cardId}-${n}`, at: `2026-05-0${n}T12:00:00Z`, fitted: fitted(cardId), averageFps },
    ...{ titleId: 'harbor', titleVersion: '1', settingId: '1080-high' },
  })),
)

export const inputsOf = (customers: readonly MatchCustomer[], items: readonly Chosen[]): MatchInputs => ({
  ask: { items, aim: 'gain', overOffer: 1, smallestGainPct: 5, quietDays: 90, companions: 'counted' },
  shop: {
    ...{ policy, runs, tradeIns: [] },
    parts: [cardOf('FAST'), cardOf('MIDDLE')],
    shelf: [
      { id: 'S-FAST', partId: 'FAST', condition: 'used', quantity: 1, priceMinor: 30_000, at: AT },
      { id: 'S-MIDDLE', partId: 'MIDDLE', condition: 'used', quantity: 1, priceMinor: 20_000, at: AT },
    ],
    work: [{ work: 'opening', minutes: 15, priceMinor: 1500 }],
  },
  ...{ customers, at: AT },
})
