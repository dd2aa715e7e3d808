import { z } from '@hono/zod-openapi'
import { failed, ok } from '../../../problem.ts'
import { beingFitted } from '../../../uses/answerQuestion.ts'
import type { OddLine } from '../../../uses/runs/oddRuns.ts'
import { sayOdd } from '../../../words/odd.ts'
import { figuresOf } from '../../frame.ts'
import { namesIn } from '../../runOdd.tsx'
import { told } from '../describe.ts'
import { endpoint, paging, pieceOf } from '../endpoint.ts'
import { oddRun, reversal } from '../schemas/odd.ts'

/** A program waits so long for the gain model; then it is told to ask again. */
const FIT_WAIT_MS = 10_000

export const oddRunEndpoints = [
  endpoint({
    id: 'listOddRuns',
    ...{ method: 'get', path: '/runs/odd', group: 'Runs', scope: 'read' },
    says: 'Runs that do not fit what all others say, with what would explain each and what to do. None is dropped.',
    query: z.strictObject(paging),
    answer: z.strictObject({
      items: z.array(oddRun),
      ...{ total: z.int(), limit: z.int(), offset: z.int() },
      reversals: told(
        z.array(reversal),
        'Parts that are slower in one title than elsewhere: a fact, not a fault.',
      ),
    }),
    run: async ({ uses }, { query }) => {
      const before = await uses.fitUnderWay(FIT_WAIT_MS)
      if (before !== undefined) return failed(beingFitted(before))
      const [found, shop] = await Promise.all([uses.oddRuns(), uses.shop()])
      if (found.state === 'under way') return failed(beingFitted(found.progress))
      if (found.state === 'failed') return failed(NOT_WORKED_OUT)
      // A run is also told against another one that it repeats.
      const ids = found.told.odd.flatMap(({ runId, guesses }) => [
        runId,
        ...guesses.flatMap((guess) => (guess.kind === 'again' ? [guess.runId] : [])),
      ])
      const view = await uses.runs({ ids, most: ids.length })
      const rates = new Map(view.runs.map(({ id, averageFps }) => [id, averageFps]))
      const [names, figures] = [namesIn(view), figuresOf(shop)]
      const shown = ({ look, ...odd }: OddLine) => {
        const averageFps = rates.get(odd.runId)
        // Taken out since it was judged.
        if (averageFps === undefined) return []
        const { off, why } = sayOdd(odd, averageFps, rates, names, figures)
        const seen = look !== undefined && { lookedAt: look.at }
        return [{ ...odd, averageFps, says: [off, ...why], ...seen }]
      }
      const { odd, reversals } = found.told
      return ok({ ...pieceOf(odd.flatMap(shown), query), reversals })
    },
  }),
]

const NOT_WORKED_OUT = {
  code: 'busy',
  field: 'gain',
  next: 'The gain model could not be fitted just now, so which runs do not fit is not known. Ask again in a minute.',
} as const
