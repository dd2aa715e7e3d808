import type { AnswerInputs } from '../../src/core/answer.ts'
import { failed, ok, type Problem } from '../../src/problem.ts'
import type { WorkUses } from '../../src/web/workUses.ts'
import type { PageState } from './states.ts'

/** Prices of work as their page reads them; `calls` notes what was asked to change. */
export const cannedWorkUses = ({ work }: AnswerInputs, calls: unknown[][]): WorkUses => ({
  workPrices: async () => ({ prices: work, mark: 'a mark' }),
  saveWorkPrices: async (prices, seen) => {
    calls.push(['saveWorkPrices', prices, seen])
    return ok({ editId: '7' })
  },
  undoWorkPrices: async (editId) => {
    calls.push(['undoWorkPrices', editId])
    return ok({ editId: '8' })
  },
})

const STALE: Problem = {
  code: 'conflict',
  field: 'prices',
  next: 'Somebody changed these prices since you opened them. What you typed is kept below. Open the page beside it, compare, then save again.',
}

export const WORK_STATES: readonly PageState[] = [
  { name: 'work-prices', path: '/settings/work' },
  {
    name: 'work-prices-none',
    path: '/settings/work',
    uses: { workPrices: async () => ({ prices: [], mark: '' }) },
  },
  { name: 'work-prices-saved', path: '/settings/work?did=saved&edit=7' },
  {
    name: 'work-prices-wrong',
    path: '/settings/work',
    status: 422,
    form: { 'price.opening': '1e400', 'minutes.opening': '-5', 'price.cleaning': '25' },
  },
  {
    name: 'work-prices-conflict',
    path: '/settings/work',
    status: 409,
    form: { 'price.opening': '15', 'minutes.opening': '10' },
    uses: { saveWorkPrices: async () => failed(STALE) },
  },
]
