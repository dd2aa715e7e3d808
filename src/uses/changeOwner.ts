import { isOver } from '../core/job/states.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { jobsOfMachine } from '../store/jobs.ts'
import { hasUnknownAskers, loadMachine, moveMachine } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import { revokeLinks } from '../store/ownerLinks.ts'
import { endRequest, insertRequest, openRequests } from '../store/ownerRequests.ts'
import { endParting } from '../store/partings.ts'
import { clearReminders, unansweredOf } from '../store/questions.ts'
import { findOrAddCustomer } from './addMachine.ts'
import { findTag } from './findMachine.ts'
import { allOrNothing } from './jobs/onJob.ts'
import { stepQuestion } from './questionState.ts'

/** Who has it now; neither: somebody the shop does not know. */
export type NewOwner = { readonly ownerName?: string | undefined; readonly ownerEmail?: string | undefined }

/**
 * The machine was sold on. What is in it, its limits, history and runs stay; the old owner's name, address, consent
 * and link do not go along. What was asked so far stays with the one who asked: what is not answered yet is called off,
 * and nothing is asked of the old owner any more. What the shop wants to know for the machine's own sake is asked anew.
 */
export const changeOwner = (
  store: Store,
  typedTag: string,
  newOwner: NewOwner,
  at: string,
): Promise<Result<{ readonly tag: string }>> =>
  allOrNothing(store, async (tx) => {
    const tag = await findTag(tx, typedTag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || loaded === undefined) {
      const next = 'There is no machine with this tag. The list of machines shows them all.'
      return failed({ code: 'not found', field: 'machine', got: typedTag, next })
    }
    const open = await openJobProblem(tx, tag)
    if (open !== undefined) return failed(open)
    const to = await findOrAddCustomer(tx, newOwner)
    const from = loaded.owner?.id ?? (await nobody(tx, tag))
    if (to !== undefined && to === from) {
      const next =
        'has it already. Name somebody else, or leave it empty when you do not know who has it now.'
      return failed({ code: 'conflict', field: 'ownerName', got: loaded.owner?.name, next })
    }
    const ended = await endQuestions(tx, tag, at)
    if (!ended.ok) return ended
    await moveMachine(tx, tag, { from, to }, at)
    await revokeLinks(tx, tag, at)
    await endParting(tx, tag, 'settledAt', at)
    return ok({ tag })
  })

const SOLD_ON = 'the machine was sold on'

/** Requests of the old owner end with what was sent for them; questions that wait are called off. */
async function endQuestions(tx: Db, tag: string, at: string): Promise<Result<undefined>> {
  for (const { id, questionId, limitKey } of await openRequests(tx, tag)) {
    await endRequest(tx, id, 'withdrawn')
    if (questionId === undefined) await insertRequest(tx, { machineTag: tag, limitKey }, at)
  }
  for (const id of await unansweredOf(tx, tag)) {
    const stepped = await stepQuestion(tx, id, 'called off', at, SOLD_ON)
    if (!stepped.ok) return stepped
  }
  await clearReminders(tx, tag)
  return ok(undefined)
}

/** Stands for an owner nobody wrote down, so that the next one is not taken for who asked. */
const nobody = async (tx: Db, tag: string): Promise<string | undefined> =>
  (await hasUnknownAskers(tx, tag))
    ? findOrAddCustomer(tx, { ownerName: `owner of ${tag} before, not known` })
    : undefined

async function openJobProblem(tx: Db, tag: string): Promise<Problem | undefined> {
  const open = (await jobsOfMachine(tx, tag)).find(({ state }) => !isOver(state))
  if (open === undefined) return undefined
  const next = `${open.id} was agreed with its owner and is still open. Finish it or call it off first.`
  return { code: 'conflict', field: 'machine', next }
}
