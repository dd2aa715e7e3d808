import type { FactorProposal, Level } from './reliability.ts'

/** What spoke for another width when it was put into force. */
export type WidthEvidence = {
  readonly promises: number
  readonly jobs: number
  /** So many independent ones tell as much. */
  readonly counts: number
  /** The factor as the promises show it alone, before it is drawn toward 1. */
  readonly seen: number
  /** How often promises were kept with the factor until then, and how often they would have been with the new one. */
  readonly before: readonly Level[]
  readonly after: readonly Level[]
}

/** One change of the width of intervals. It stays when it is taken back, so that what was promised meanwhile can be told. */
export type WidthStep = {
  readonly id: string
  /** ISO 8601 UTC. */
  readonly at: string
  /** Name of the account. */
  readonly by?: string | undefined
  readonly was: number
  readonly factor: number
  readonly evidence: WidthEvidence
  readonly takenBackAt?: string | undefined
}

/** The step that holds: the latest of those that were not taken back. `steps` in the order they were taken. */
export const stepInForce = (steps: readonly WidthStep[]): WidthStep | undefined =>
  steps.findLast(({ takenBackAt }) => takenBackAt === undefined)

/** What intervals are multiplied by now; 1 without a step that holds. */
export const factorInForce = (steps: readonly WidthStep[]): number => stepInForce(steps)?.factor ?? 1

/** What is kept of a proposal when somebody takes it. */
export const evidenceFor = ({ seen, before, after }: FactorProposal): WidthEvidence => ({
  ...{ promises: before.promises, jobs: before.jobs, counts: before.counts, seen },
  ...{ before: before.levels, after: after.levels },
})
