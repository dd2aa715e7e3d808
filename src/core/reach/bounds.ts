import type { GainAsk, GainModel, TitleGain } from '../gain/gain.ts'
import type { Excerpt } from '../gain/model/excerptTypes.ts'
import { FOUR_OF_FIVE_SD } from '../gain/noise.ts'
import { type Fitted, fittedKey } from '../gain/run.ts'
import type { Part } from '../part.ts'

/** A frame rate that is known well enough, to count from. */
export type Anchor = { readonly fitted: Fitted; readonly averageFps: number }

/**
 * The model with a number also where it would say none because it is too uncertain: as wide as it is. For planning, where a
 * platform that was never built has bounds and no blank; nothing of this may be promised. `anchorOf`: of each title at a
 * setting something that was measured.
 */
export function withBounds(
  model: GainModel,
  anchorOf: (titleId: string, settingId: string) => Anchor | undefined,
): GainModel {
  const wide = (ask: GainAsk): TitleGain | undefined => {
    const anchor = anchorOf(ask.titleId, ask.settingId)
    const { before, after } = ask
    if (anchor === undefined || before === undefined || after === undefined) return undefined
    const from = model.difference?.({ ...ask, before: anchor.fitted, after: before })
    const to = model.difference?.({ ...ask, before: anchor.fitted, after })
    const gap = model.difference?.(ask)
    if (from === undefined || to === undefined || gap === undefined) return undefined
    const end = (logGain: number) => ({
      ...{ averageFps: anchor.averageFps * Math.exp(logGain), runIds: [], at: '', onThisMachine: false },
    })
    const isSame = fittedKey(before) === fittedKey(after)
    const after80 = (sign: number) =>
      anchor.averageFps * Math.exp(to.logGain + sign * FOUR_OF_FIVE_SD * to.sd)
    return {
      grade: 'estimated',
      titleId: ask.titleId,
      before: end(from.logGain),
      after: end(to.logGain),
      logGain: isSame ? 0 : to.logGain - from.logGain,
      sd: isSame ? 0 : gap.sd,
      afterFpsLow: after80(-1),
      afterFpsHigh: after80(1),
      disagrees: false,
      ...{ sdBefore: from.sd, sdAfter: to.sd },
    }
  }
  return {
    ...model,
    predict: (ask) => {
      const told = model.predict(ask)
      return told.grade === 'no number' ? (wide(ask) ?? told) : told
    },
  }
}

/** The model with parts that the fit does not know, as those are known that never ran: by nothing but their kind. */
export function withParts(excerpt: Excerpt, parts: readonly Part[]): Excerpt {
  const known = new Set(excerpt.partIds)
  const fresh = parts.filter(({ id, kind }) => !known.has(id) && (kind === 'processor' || kind === 'card'))
  return {
    ...excerpt,
    partIds: [...excerpt.partIds, ...fresh.map(({ id }) => id)],
    parts: [
      ...excerpt.parts,
      ...fresh.map((part) => {
        const { id, kind } = part
        if (part.kind !== 'card') return { id, kind }
        const { memoryGB, pcieGen, pcieLanes } = part
        return { id, kind, memoryGB, pcieGen, pcieLanes }
      }),
    ],
  }
}
