import { failed, ok } from '../../src/problem.ts'
import { beingFitted } from '../../src/uses/answerQuestion.ts'
import type { FitProgress } from '../../src/uses/gain/keptFit.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { inputs } from './cannedShop.ts'
import { cannedUses } from './cannedUses.ts'

/** What pages are told while the gain model is fitted: answers without it, and no to what would keep one. */
export function fittingUses(fitting: FitProgress): Partial<WebUses> {
  const { uses } = cannedUses({ inputs })
  const busy = async () => failed(beingFitted(fitting))
  return {
    fitUnderWay: async () => fitting,
    questionView: async (id) => {
      const found = await uses.questionView(id)
      return found.ok ? ok({ ...found.value, fitting }) : found
    },
    ...{ whyOfQuestion: busy, prepareMessage: busy, toAgree: busy, agreeJob: busy },
  }
}
