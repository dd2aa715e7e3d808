import type { Build } from '../build.ts'
import type { MemoryAsItRuns, Run } from '../gain/run.ts'
import type { Machine } from '../machine.ts'
import { atLeast } from './claim.ts'
import type { Claim } from './limit.ts'
import { provenTogether } from './proven.ts'

/**
 * The runs of this machine with the processor and the card that are in it, made no earlier than its last change of
 * parts: what they say of its link holds today. `changedAt` is that change, ISO 8601 UTC; absent = since before
 * anybody wrote it down.
 */
export const ownRunsOf = (
  tag: string,
  { processor, card }: Build,
  changedAt: string | undefined,
  runs: readonly Run[],
): Run[] =>
  runs
    .filter((run) => run.machineTag === tag && (changedAt === undefined || run.at >= changedAt))
    .filter(({ fitted }) => fitted.processorId === processor?.id && fitted.cardId === card?.id)

/**
 * How the machine's memory runs by its own runs, for modules nobody described. `undefined` when the runs differ: then
 * some were made with modules or settings that were lent for the run, and nobody knows which.
 */
export function seenMemoryOf(ownRuns: readonly Run[]): MemoryAsItRuns | undefined {
  const [first, ...others] = ownRuns.map((run) => run.fitted.memory)
  const isSame = (memory: MemoryAsItRuns): boolean => keyOf(memory) === (first && keyOf(first))
  return others.every(isSame) ? first : undefined
}

const keyOf = (m: MemoryAsItRuns): string => [m.memoryType, m.rateMts, m.channels, m.totalGB].join('|')

/**
 * What a machine proves by its own runs: its slot and its processor give the card at least the link it had, and its
 * memory is of that type. More than that link a run can't tell: the card may have been the end that asked for no
 * more. The memory's rate is no claim, because a run may be made with a setting that is not left on.
 */
export function claimsFromRuns(ownRuns: readonly Run[]): Claim[] {
  const memory = seenMemoryOf(ownRuns)
  const last = ownRuns.at(-1)
  return [
    ...(memory === undefined || last === undefined
      ? []
      : [
          {
            key: 'memoryType',
            value: memory.memoryType,
            source: 'measured',
            at: last.at,
            note: `as it ran in ${last.id}`,
          } as const,
        ]),
    ...ownRuns.flatMap(({ id, fitted: { link } }) => {
      const note = `as it ran in ${id}`
      return [
        ...atLeast('slotPcieGen', link.gen, 'measured', note),
        ...atLeast('slotLanes', link.lanes, 'measured', note),
        ...atLeast('processorPcieGen', link.gen, 'measured', note),
        ...atLeast('processorPcieLanes', link.lanes, 'measured', note),
      ]
    }),
  ]
}

/**
 * The machine with what its parts and its own runs prove beside what is claimed about it. A type of memory that the
 * board's own row gives needs no proof.
 */
export const asProven = (machine: Machine, ownRuns: readonly Run[]): Machine => {
  const isRowSilent = machine.build.board?.memoryType === undefined
  const ofRuns = claimsFromRuns(ownRuns).filter(({ key }) => key !== 'memoryType' || isRowSilent)
  return { ...machine, claims: [...provenTogether(machine.build), ...ofRuns, ...machine.claims] }
}
