import type { LimitKey } from '../core/limits/limit.ts'
import { limitsOf } from '../core/limits/resolve.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { loadMachine } from '../store/machines.ts'
import type { Db, Store } from '../store/open.ts'
import {
  endRequest,
  insertRequest,
  loadRequest,
  type NewRequest,
  type OwnerRequest,
  openRequests,
} from '../store/ownerRequests.ts'
import { questionStateOf } from '../store/questions.ts'
import { findTag } from './findMachine.ts'
import { stepQuestion } from './questionState.ts'

/** Written down beside a question's step, so that its history tells what it waited for. */
const because = (word: 'asked for' | 'arrived' | 'no longer asked for', key: LimitKey): string =>
  `${word}: ${key}`

/**
 * Asks an owner for one limit of the machine, with or without a question that waits for it. Asking twice for the same
 * thing gives the same request. A limit that is known is not asked for.
 */
export async function askOwner(
  store: Store,
  request: NewRequest,
  at: string,
): Promise<Result<{ readonly requestId: string; readonly tag: string }>> {
  return store.write(async (tx) => {
    const tag = await findTag(tx, request.machineTag)
    const loaded = tag === undefined ? undefined : await loadMachine(tx, tag)
    if (tag === undefined || loaded === undefined) return failed(noMachine(request.machineTag))
    const { limitKey, questionId } = request
    if (limitsOf(loaded.machine.build, loaded.machine.claims)[limitKey].known) {
      const next = 'This limit is known already. Look at it on the page of the machine.'
      return failed({ code: 'conflict', field: 'limit', got: limitKey, next })
    }
    const same = (await openRequests(tx, tag)).find(
      (open) => open.limitKey === limitKey && open.questionId === questionId,
    )
    if (same !== undefined) return ok({ requestId: same.id, tag })
    if (questionId !== undefined) {
      const stepped = await stepQuestion(tx, questionId, 'asked back', at, because('asked for', limitKey))
      if (!stepped.ok) return stepped
    }
    return ok({ requestId: await insertRequest(tx, { ...request, machineTag: tag }, at), tag })
  })
}

/** Asks no longer; a question that waited for this alone goes on as it is. */
export async function withdrawRequest(
  store: Store,
  requestId: string,
  at: string,
): Promise<Result<{ readonly tag: string; readonly questionId?: string | undefined }>> {
  return store.write(async (tx) => {
    const request = await loadRequest(tx, requestId)
    if (request?.state !== 'open') return failed(noRequest(requestId))
    await endRequest(tx, request.id, 'withdrawn')
    await resume(tx, request, 'no longer asked for', at)
    return ok({ tag: request.machineTag, questionId: request.questionId })
  })
}

/**
 * Answers every request whose limit is known now, however it came to be known, and lets the questions go on that
 * waited for nothing else. Called inside each transaction that can make a limit known.
 */
export async function hearWhatArrived(tx: Db, at: string, machineTag?: string): Promise<LimitKey[]> {
  const byTag = new Map<string, OwnerRequest[]>()
  for (const request of await openRequests(tx, machineTag))
    byTag.set(request.machineTag, [...(byTag.get(request.machineTag) ?? []), request])
  const arrived: LimitKey[] = []
  for (const [tag, requests] of byTag) {
    const loaded = await loadMachine(tx, tag)
    if (loaded === undefined) continue
    const limits = limitsOf(loaded.machine.build, loaded.machine.claims)
    for (const request of requests.filter(({ limitKey }) => limits[limitKey].known)) {
      await endRequest(tx, request.id, 'answered', at)
      await resume(tx, request, 'arrived', at)
      arrived.push(request.limitKey)
    }
  }
  return arrived
}

/** The question goes on when nothing else is open for it. */
async function resume(
  tx: Db,
  { questionId, machineTag, limitKey }: OwnerRequest,
  word: 'arrived' | 'no longer asked for',
  at: string,
): Promise<void> {
  if (questionId === undefined) return
  const others = (await openRequests(tx, machineTag)).some((open) => open.questionId === questionId)
  if (others || (await questionStateOf(tx, questionId)) !== 'waiting for the owner') return
  const stepped = await stepQuestion(tx, questionId, 'heard', at, because(word, limitKey))
  if (!stepped.ok) throw new Error('a waiting question can always be heard')
}

const noMachine = (got: string): Problem => ({
  ...{ code: 'not found', field: 'machine', got },
  next: 'There is no machine with this tag. The list of machines shows them all.',
})

export const noRequest = (got: string): Problem => ({
  ...{ code: 'not found', field: 'request', got },
  next: 'Nothing is asked for under this name any more. Open the page of the machine again.',
})
