import type { Asked } from './asked/asked.ts'
import type { GainModel } from './gain/gain.ts'
import type { Excerpt } from './gain/model/excerptTypes.ts'
import type { Run, Setting, Title } from './gain/run.ts'
import type { Warranty } from './job/warranty.ts'
import type { Language } from './language.ts'
import type { Limits } from './limits/limit.ts'
import type { Machine } from './machine.ts'
import type { Part } from './part.ts'
import type { Question } from './question.ts'
import type { FoundWithPrices, Later } from './ranking/later.ts'
import type { Lowered } from './ranking/lowered.ts'
import type { Ranking } from './ranking/option.ts'
import type { Sound, SoundReading } from './ranking/quiet.ts'
import type { SpaceRow } from './ranking/space.ts'
import type { ItemPrice, ShelfItem, ShopPolicy, TradeIn, WorkPrice } from './shop.ts'

/** Who the shop is, for the head and foot of mails and pages. */
export type Shop = {
  readonly name: string
  readonly address: string
  readonly email: string
  readonly builder: string
  /** BCP 47 tag that decides how figures and dates are written, such as `en-US`. */
  readonly locale: string
  /** IANA name, such as `America/Chicago`; dates are shown in it. */
  readonly timeZone: string
  readonly policy: ShopPolicy
}

export type Customer = {
  readonly id: string
  readonly name: string
  /** Absent for customers who only chat or phone. */
  readonly email?: string | undefined
  /** What they read our mails and their page in; absent: the shop's own language. */
  readonly language?: Language | undefined
}

/**
 * Everything an answer was computed from, as plain data. Kept with the answer, so that years later the same inputs
 * give the same answer and every figure can be explained although parts, prices and runs have changed since.
 */
export type AnswerInputs = {
  readonly shop: Shop
  readonly customer?: Customer | undefined
  readonly machine: Machine
  readonly question: Question
  /** Parts on the shelf, in the machine and in the runs. */
  readonly parts: readonly Part[]
  readonly shelf: readonly ShelfItem[]
  readonly work: readonly WorkPrice[]
  readonly tradeIns: readonly TradeIn[]
  readonly titles: readonly Title[]
  readonly settings: readonly Setting[]
  /** Runs of the wanted titles. */
  readonly runs: readonly Run[]
  /** The machine's own runs since its parts last changed, of whatever title: they prove its link and its memory. */
  readonly ownRuns?: readonly Run[] | undefined
  /**
   * The piece of the gain model that this answer counts on. Absent in answers kept before there was one, where no title
   * is asked for, and where the fit failed: then a number stands only where both ends were measured.
   */
  readonly gain?: Excerpt | undefined
  /**
   * The ranking that this answer counts with, as RANKING_VERSION was. Absent in answers kept before bundles of any size were
   * searched: these rank singles and pairs, to the same digits as ever.
   */
  readonly ranking?: string | undefined
  /** The fit failed, so what is not measured has no number in this answer. */
  readonly gainFailed?: true | undefined
  /** Runs with a sound level that bear on it, where the owner asked for quiet; absent where nobody did. */
  readonly sounds?: readonly SoundReading[] | undefined
  /** Parts that could be bought, with every range they were seen for; absent in answers kept before waiting was looked at. */
  readonly found?: readonly FoundWithPrices[] | undefined
  /** Earlier prices of what stands on the shelf. */
  readonly itemPrices?: readonly ItemPrice[] | undefined
  /** Warranties of parts in the machine; absent in answers kept before they were noted. */
  readonly warranties?: readonly Warranty[] | undefined
}

/** Versions of what computed the answer. Raise the one whose results change. */
export type Versions = {
  readonly facts: string
  readonly rules: string
  readonly gain: GainModel['name']
  readonly ranking: string
}

/** A computed answer: a snapshot that needs nothing else to be shown, mailed or explained. */
export type Answer = {
  readonly inputs: AnswerInputs
  readonly limits: Limits
  readonly ranking: Ranking
  /** What a lower setting is worth without buying anything; absent in answers kept before it was looked at. */
  readonly lowered?: readonly Lowered[] | undefined
  /** Waiting, and saving for a new platform; absent in answers kept before that was looked at. */
  readonly later?: Later | undefined
  /** How loud things were measured to be; only where the owner asked for quiet. */
  readonly sound?: Sound | undefined
  /** Drives of the shelf in this machine; only where the owner asked for more space. */
  readonly space?: readonly SpaceRow[] | undefined
  /** What the question asks for by name; absent for "what can I do", and in answers kept before it was asked. */
  readonly asked?: Asked | undefined
  readonly versions: Versions
  /** When it was computed; ISO 8601 UTC. */
  readonly at: string
}

/** Every part that an answer may name: those of its ranking, and those that could be bought. */
export const partsToldOf = ({ parts, found = [] }: Pick<AnswerInputs, 'parts' | 'found'>): Part[] => [
  ...parts,
  ...found.map(({ part }) => part),
]

/** The ranking as programs are told it: they have no page beside it that says that the fit failed. */
export type ToldRanking = Ranking & { readonly gainFailed?: true | undefined }

export const toldRanking = ({ ranking, inputs }: Answer): ToldRanking =>
  inputs.gainFailed === true ? { ...ranking, gainFailed: true } : ranking
