import type { NextRun } from '../core/gain/nextRun/nextRuns.ts'
import { RUN_MINUTES } from '../core/gain/nextRun/nextRuns.ts'
import type { Part } from '../core/part.ts'
import { MEASURE_EN } from './en/measure.ts'
import type { Figures } from './figures.ts'
import { fill } from './say.ts'

const W = MEASURE_EN.next

/** Where a run is made, and what is put in for it. */
export function sayWhere(run: NextRun, parts: readonly Part[]): string {
  const name = (id: string) => parts.find((part) => part.id === id)?.name ?? id
  const { machineTag, fitted, partIds } = run
  const where =
    machineTag === undefined
      ? fill(W.onBench, { processor: name(fitted.processorId), card: name(fitted.cardId) })
      : fill(W.onMachine, { tag: machineTag })
  return partIds.length === 0
    ? where
    : `${where}, ${fill(W.withParts, { parts: partIds.map(name).join(', ') })}`
}

export const sayMinutes = ({ minutes = 0 }: NextRun, figures: Figures): string =>
  fill(W.minutes, { minutes: figures.named('runMinutes', RUN_MINUTES + minutes) })

/** Whom it helps, and by how much the one that it helps most. */
export function sayHelps({ helps }: NextRun, figures: Figures): string {
  const first = helps[0]
  if (first === undefined) return W.none
  const words = helps.length === 1 ? W.helps.one : W.helps.other
  const said = fill(words, { n: figures.number(helps.length), first: first.questionId })
  const loses =
    first.numbers.length > 0 && first.share > 0.99
      ? ''
      : ` ${fill(W.loses, { share: shareText(first.share, figures) })}`
  const gives = helps.some(({ numbers }) => numbers.length > 0) ? ` ${W.gives}` : ''
  return said + loses + gives
}

/** A share to whole percent; less than one is said so. */
export const shareText = (share: number, figures: Figures): string =>
  share > 0 && share < 0.01 ? `under ${figures.named('sharePct', 1)}` : figures.named('sharePct', 100 * share)
