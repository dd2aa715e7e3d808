import type { Claim } from '../../../../src/core/limits/limit.ts'
import type { Part } from '../../../../src/core/part.ts'
import type { Verdict } from '../../../../src/core/verdict.ts'
import type { About, Area, FitCase } from './case.ts'

/** A case as it is written down; what is left out is empty. */
export type Draft = {
  readonly id: string
  readonly says: string
  readonly tricky?: true
  readonly has: readonly Part[]
  readonly claims?: readonly Claim[]
  readonly add?: readonly Part[]
  readonly out?: readonly string[]
  readonly work?: readonly string[]
  readonly verdict: Verdict
  readonly about?: About
  readonly reason: string
  readonly values?: Readonly<Record<string, number>>
  readonly needs?: readonly string[]
  readonly source: string
  readonly note?: string
}

/** The drafts of one chapter as cases, about the chapter's own matter unless a draft names another. */
export const chapter = (area: Area, about: About, drafts: readonly Draft[]): readonly FitCase[] =>
  drafts.map((d) => ({
    id: d.id,
    says: d.says,
    area,
    tricky: d.tricky ?? false,
    machine: { parts: d.has, claims: d.claims ?? [] },
    change: { add: d.add ?? [], removeIds: d.out ?? [], work: d.work ?? [] },
    expect: { verdict: d.verdict, about: d.about ?? about, reason: d.reason, values: d.values },
    needsLimit: d.needs,
    source: d.source,
    note: d.note,
  }))
