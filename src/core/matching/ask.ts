import type { Excerpt } from '../gain/model/excerptTypes.ts'
import type { MemoryAsItRuns, Run } from '../gain/run.ts'
import type { Machine } from '../machine.ts'
import type { Minor } from '../money.ts'
import type { Part } from '../part.ts'
import type { Question } from '../question.ts'
import type { SoundReading } from '../ranking/quiet.ts'
import type { ShelfItem, ShopPolicy, TradeIn, WorkPrice } from '../shop.ts'

/** What is made as large as possible over all offers together. */
export const AIMS = ['gain', 'margin', 'mix'] as const
export type Aim = (typeof AIMS)[number]

/** How many of one shelf item are to be offered. */
export type Chosen = {
  readonly itemId: string
  readonly quantity: number
  /** What the shop paid for a piece; needed where the margin counts. */
  readonly costMinor?: Minor | undefined
}

/** Whether what an offer needs beside it is taken from the shelf, or can be had again whenever it is needed. */
export const COMPANIONS = ['counted', 'had again'] as const

/** What the shop asks for. */
export type MatchAsk = {
  readonly items: readonly Chosen[]
  readonly aim: Aim
  /** Under `mix`: what one percent of useful gain counts beside the margin. */
  readonly percentMinor?: Minor | undefined
  /** Offers for each piece on the shelf, 1 or more: not everybody says yes. */
  readonly overOffer: number
  readonly smallestGainPct: number
  /** Nobody hears of an offer again before so many days. */
  readonly quietDays: number
  readonly companions: (typeof COMPANIONS)[number]
}

/** A machine of a customer, with what was last asked about it. */
export type CustomersMachine = {
  /** With what its own runs prove. */
  readonly machine: Machine
  readonly seenMemory?: MemoryAsItRuns | undefined
  /** It has runs of its own, which the gain model knows apart from those of its parts. */
  readonly hasOwnRuns: boolean
  /** The last question about it: titles, display, wishes, budget. Absent: nobody ever asked. */
  readonly question?: Question | undefined
}

export type MatchCustomer = {
  readonly id: string
  readonly mayOffer: boolean
  /** Mail reaches them. */
  readonly hasEmail: boolean
  /** When they last heard of an offer or bought something; ISO 8601 UTC. */
  readonly lastAt?: string | undefined
  readonly machines: readonly CustomersMachine[]
}

/** The shop as a matching sees it. */
export type MatchShop = {
  readonly policy: ShopPolicy
  readonly parts: readonly Part[]
  readonly shelf: readonly ShelfItem[]
  readonly work: readonly WorkPrice[]
  readonly tradeIns: readonly TradeIn[]
  /** The piece of the gain model; without it what the runs say alone. */
  readonly gain?: Excerpt | undefined
  readonly runs: readonly Run[]
  /** Runs with a sound level, for owners who asked for quiet. */
  readonly sounds?: readonly SoundReading[] | undefined
}

/** All that a matching is worked out from, as plain data: worked out again it gives the same. No names of people. */
export type MatchInputs = {
  readonly ask: MatchAsk
  readonly shop: MatchShop
  readonly customers: readonly MatchCustomer[]
  /** ISO 8601 UTC; ages and quiet periods count to it. */
  readonly at: string
}

/** How many may be offered of an item: whole ones, so half as many again of one piece is one. */
export const placesOf = (quantity: number, overOffer: number): number =>
  Math.floor(quantity * overOffer + 1e-9)
