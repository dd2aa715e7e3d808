import type { AnswerInputs } from '../../core/answer.ts'
import type { GainAsk } from '../../core/gain/gain.ts'
import type { Excerpt, ExcerptOf, GainData, Start } from '../../core/gain/model/index.ts'
import type { ModelCard } from '../../core/gain/modelCard/modelCard.ts'
import type { NextRun, PossibleRun } from '../../core/gain/nextRun/nextRuns.ts'
import type { OpenQuestion } from '../../core/gain/nextRun/question.ts'
import type { Odd, OddRuns } from '../../core/gain/odd/odd.ts'
import type { Run } from '../../core/gain/run.ts'
import type { Why } from '../../core/gain/whyTypes.ts'
import type { Found, Wanting } from '../../core/ranking/hunt.ts'
import type { Letter as LetterOf, Reply as ReplyOf } from '../threads/askThread.ts'

/** What the fitting thread is asked; `shop` tells the fits of several databases of one process apart. */
export type Asked =
  /** The runs of the fit to come, piece by piece; the first drops what is left of a fit that never came. */
  | {
      readonly what: 'runs'
      readonly shop: number
      readonly runs: readonly Run[]
      readonly isFirst: boolean
    }
  | {
      readonly what: 'fit'
      readonly shop: number
      readonly data: Omit<GainData, 'runs'>
      /** How many were sent before; with another number in hand it refuses. */
      readonly runs: number
      readonly start: unknown
    }
  | { readonly what: 'add'; readonly shop: number; readonly runs: readonly Run[] }
  | { readonly what: 'excerpt'; readonly shop: number; readonly of: ExcerptOf }
  | { readonly what: 'why'; readonly shop: number; readonly asks: readonly GainAsk[] }
  /** Runs of the fit that do not fit; and the same of runs that are not kept yet. */
  | { readonly what: 'odd'; readonly shop: number }
  | { readonly what: 'judge'; readonly shop: number; readonly runs: readonly Run[] }
  /** What a question hangs on; and which runs would help the questions that wait. */
  | { readonly what: 'open'; readonly shop: number; readonly inputs: AnswerInputs }
  /** The answer in one line. */
  | { readonly what: 'line'; readonly shop: number; readonly inputs: AnswerInputs; readonly at: string }
  /** What a question would pay for each of these parts. */
  | {
      readonly what: 'wanting'
      readonly shop: number
      readonly inputs: AnswerInputs
      readonly found: readonly Found[]
    }
  | {
      readonly what: 'next'
      readonly shop: number
      readonly questions: readonly OpenQuestion[]
      readonly possible: readonly PossibleRun[]
    }
  | { readonly what: 'card'; readonly shop: number }

/** What it answers to each. */
export type Told = {
  readonly runs: { readonly runs: number }
  readonly fit: { readonly start: Start; readonly runs: number }
  readonly add: { readonly runs: number }
  readonly excerpt: Excerpt
  readonly why: readonly (Why | undefined)[]
  readonly odd: OddRuns
  readonly judge: readonly (Odd | undefined)[]
  readonly open: OpenQuestion | undefined
  readonly line: string
  readonly wanting: readonly (Wanting | undefined)[]
  readonly next: readonly NextRun[]
  readonly card: ModelCard
}

export type Letter = LetterOf<Asked>
export type Reply = ReplyOf<Told[Asked['what']]>
