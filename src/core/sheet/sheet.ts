import type { CautionId, Finding } from '../fit/finding.ts'
import type { TitleGain } from '../gain/gain.ts'
import type { LimitKey, Limits } from '../limits/limit.ts'
import type { PartKind } from '../part.ts'
import type { UsefulGain } from '../ranking/option.ts'
import type { Verdict } from '../verdict.ts'

/** Raise it when a reader of kept or exported sheets would have to be told. */
export const SHEET_VERSION = 1

/**
 * The limits sheet of one machine at one instant, as plain data: what is inside, what it can take next, what it never
 * can, what is free, how it ran. A snapshot that needs nothing else to be shown, printed or read again; nothing about
 * its owner, the shop's costs or other customers is in it.
 */
export type LimitsSheet = {
  readonly format: 'stillfits limits sheet'
  readonly version: typeof SHEET_VERSION
  /** As written on the case label. */
  readonly tag: string
  /** The instant it is true for; ISO 8601 UTC. */
  readonly at: string
  readonly soldAt?: string | undefined
  readonly inside: readonly Inside[]
  /** Every limit, with who says so and without the shop's notes. */
  readonly limits: Limits
  /** Kinds of parts it can take next, the one with the most to gain first; kinds nobody can tell a gain of last. */
  readonly next: readonly NextKind[]
  readonly never: readonly Never[]
  readonly free: readonly Free[]
  readonly supply: SupplyLoad
  /** Titles as they ran on this machine with these parts, in the order of their names. */
  readonly measured: readonly Measured[]
  readonly warranties: readonly SheetWarranty[]
  /** Limits that are asked for and not known. */
  readonly unknown: readonly LimitKey[]
  readonly cautions: readonly CautionId[]
}

export type Inside = {
  readonly kind: PartKind
  readonly name: string
  /** Equal ones are one line. */
  readonly count: number
}

/** A known part that goes in, and what it is worth in the titles that were measured here. */
export type NextPart = {
  readonly partId: string
  readonly name: string
  readonly verdict: Exclude<Verdict, "can't tell" | 'does not fit'>
  /** Findings other than a plain `fits`. */
  readonly findings: readonly Finding[]
  /** Absent: no title has a number. */
  readonly useful?: UsefulGain | undefined
  readonly gains: readonly TitleGain[]
}

/** A part of which nobody can tell yet whether it goes in. */
export type Unclear = { readonly partId: string; readonly name: string; readonly finding: Finding }

export type NextKind = {
  readonly kind: PartKind
  /** Limits that bound what it may be, known or not. */
  readonly bounds: readonly LimitKey[]
  /** The best few parts whose gain surely lies above nothing, the largest first. */
  readonly best: readonly NextPart[]
  /** The first few of which nobody can tell, each with what stands in the way; a sheet made before has none. */
  readonly unclear?: readonly Unclear[] | undefined
  /** Parts the shop knows that were held against this machine, by what came out. */
  readonly tried: { readonly [V in Verdict]: number }
}

/** A limit that stays as long as that part stays. */
export type Never = { readonly key: LimitKey; readonly holder: PartKind }

export const FREE_PLACES = [
  'memory slots',
  'M.2 sockets',
  'SATA ports',
  '2.5-inch bays',
  '3.5-inch bays',
  'card plugs',
  'drive plugs',
] as const
export type FreePlace = (typeof FREE_PLACES)[number]

/** Places for more; `atMost` where something that nobody looked at may take one of them. */
export type Free = {
  readonly what: FreePlace
  /** Absent: not known. */
  readonly total?: number | undefined
  readonly used: number
  readonly atMost?: true | undefined
}

/** Sustained load on 12 V today against what the shop counts on; all in W. */
export type SupplyLoad =
  | {
      readonly known: true
      readonly loadW: number
      readonly usableW: number
      readonly rated12VW: number
      readonly processorW: number
      readonly cardW: number
      readonly restW: number
    }
  | { readonly known: false; readonly finding?: Finding | undefined }

export type Measured = {
  readonly titleId: string
  readonly titleName: string
  readonly settingId: string
  readonly setting: {
    readonly widthPx: number
    readonly heightPx: number
    readonly preset: string
    readonly rayTracing: boolean
    readonly upscaler?: string | undefined
    readonly frameGeneration: boolean
    readonly capFps?: number | undefined
  }
  readonly averageFps: number
  readonly low1Fps?: number | undefined
  readonly runs: number
  /** The latest of them; ISO 8601 UTC. */
  readonly at: string
  /** Two runs that do not agree: one is to be made again. */
  readonly disagrees: boolean
}

export type SheetWarranty = {
  readonly partName: string
  readonly givenBy: 'shop' | 'maker'
  readonly until: string
  readonly endsWith?: string | undefined
}
