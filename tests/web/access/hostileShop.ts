import { sql } from 'drizzle-orm'
import { MAIL_STATES } from '../../../src/core/outbox/mail.ts'
import { LEAVABLE } from '../../../src/core/sale/steps.ts'
import type { Store } from '../../../src/store/open.ts'
import { addMailEvent, insertMail } from '../../../src/store/outbox.ts'
import { insertRoundLink, insertSeats, updateSeat } from '../../../src/store/roundSeats.ts'
import { addRoundNote, insertRound } from '../../../src/store/rounds.ts'
import { updateSale } from '../../../src/store/sales.ts'
import { answerQuestion } from '../../../src/uses/answerQuestion.ts'
import { askOwner } from '../../../src/uses/askOwner.ts'
import { withdrawConsent } from '../../../src/uses/consent.ts'
import { keptFitOf } from '../../../src/uses/gain/keptFit.ts'
import { agreeJob } from '../../../src/uses/jobs/agreeJob.ts'
import { finishFitting } from '../../../src/uses/jobs/finishFitting.ts'
import { startJob } from '../../../src/uses/jobs/moveJob.ts'
import { draftJobMail } from '../../../src/uses/outbox/draftJobMail.ts'
import { draftOptedOut } from '../../../src/uses/outbox/draftOptedOut.ts'
import { draftAskOne, draftReceived } from '../../../src/uses/outbox/draftQuestionMail.ts'
import { changeNotice } from '../../../src/uses/outbox/noticeWords.ts'
import { makeOwnerLink } from '../../../src/uses/ownerLinks.ts'
import { newYesToken, yesHash } from '../../../src/uses/rounds/writeOffers.ts'
import { sellUsesOf } from '../../../src/uses/sellUses.ts'
import { editMessage, prepareMessage } from '../../../src/uses/writeMessage.ts'
import { usesOf } from '../../../src/usesOf.ts'
import { RIGHTS } from '../../../src/web/access/rights.ts'
import { createApp } from '../../../src/web/app.ts'
import { AT, copyOf, later, unwrapped } from '../../uses/jobs/jobShop.ts'
import { asOwner } from '../signedIn.ts'
import { fillWith } from './hostile.ts'

/** A shop in which everything that can be words is hostile, then worked with: answers, messages, jobs, links. */
export async function hostileShop(template: string, text: string) {
  const { store, close } = await copyOf(template)
  await fillWith(store, text)
  const rows = async (query: ReturnType<typeof sql>) =>
    (await store.db.all<{ key: string | number }>(query)).map(({ key }) => String(key))
  const questions = await rows(sql`select id as key from questions order by id`)
  for (const id of questions.slice(0, 3)) {
    const kept = await prepareMessage(store, id, undefined, AT)
    if (kept.ok) await editMessage(store, kept.value.messageId, { opening: text, closing: text }, AT)
  }
  const job = await someJob(store, questions, text)
  const [tag = ''] = await rows(sql`select machine_tag as key from questions order by id limit 1`)
  const asked = []
  for (const limitKey of ['cardRoomMm', 'coolerRoomMm', 'supplyRoomMm', 'memoryMaxGB'] as const)
    asked.push(await askOwner(store, { machineTag: tag, limitKey }, AT))
  if (!asked.some((request) => request.ok)) throw new Error('nothing could be asked of the owner')
  await someSale(store, tag, text)
  await someMails(store, { questions, job, tag, text })
  const yesToken = await someRound(store, tag, text)
  const { token } = unwrapped(await makeOwnerLink(store, tag, AT))
  // Without the fit programs are told to come again, and pages say little.
  if (!(await keptFitOf(store).fresh(new Date().toISOString())))
    throw new Error('the gain model could not be fitted')
  // What the fit leaves behind is written in its turn, and tests write past that.
  await store.write(async () => {})
  const app = createApp({ ...usesOf(store), now: () => later(100) }, { demo: false, ...asOwner })
  return { store, close, rows, token, yesToken, job, app }
}

/** The first option that can be agreed goes all the way onto the bench and in. */
async function someJob(store: Store, questions: readonly string[], text: string): Promise<string> {
  for (const id of questions) {
    const answer = unwrapped(await answerQuestion(store, id, AT))
    for (const option of answer.ranking.ranked) {
      const agreed = await agreeJob(
        store,
        id,
        option.id,
        { fittedBy: 'shop', bookedFor: later(60), note: text },
        AT,
      )
      if (!agreed.ok) continue
      unwrapped(await startJob(store, agreed.value.jobId, later(70)))
      await finishFitting(store, agreed.value.jobId, {}, later(80))
      return agreed.value.jobId
    }
  }
  throw new Error('no option could be agreed')
}

/** A mail of each kind that hangs on what is stored, and one in each state, as hostile as what it is made of. */
async function someMails(
  store: Store,
  { questions, job, tag, text }: { questions: readonly string[]; job: string; tag: string; text: string },
): Promise<void> {
  const hand = { at: later(95), by: text }
  const [question = ''] = questions
  const ids = [
    unwrapped(await draftReceived(store, question, later(1000), hand)),
    unwrapped(
      await draftAskOne(
        store,
        { tag, limitKey: 'cardRoomMm', questionId: question, link: 'https://ask.example/o/x' },
        hand,
      ),
    ),
    unwrapped(await draftJobMail(store, job, later(95), text)),
  ].map(({ mailId }) => mailId)
  for (const id of ids) await changeNotice(store, id, { subject: text, opening: text, closing: text }, hand)
  const [written] = await store.db.all<{ key: string }>(sql`select customer_id as key from mails limit 1`)
  if (written === undefined) throw new Error('no mail could be drafted')
  const customerId = written.key
  unwrapped(await withdrawConsent(store, customerId, { kind: 'offers', source: 'mail' }, later(95)))
  await draftOptedOut(store, customerId, later(95))
  // As a server's reply, a hand or an older program may have left them.
  for (const state of MAIL_STATES) {
    const mail = {
      ...({ kind: 'offer', customerId, machineTag: tag, html: '<p>words</p>', text, subject: text } as const),
      ...{ toName: text, toAddress: text, rfcMessageId: `<${state}@shop.example>`, unsubscribeToken: state },
    }
    await store.write(async (tx) => {
      const id = await insertMail(tx, mail, later(95), text)
      await addMailEvent(tx, id, { at: later(96), event: 'no reply', by: text, says: text })
      await tx.run(
        sql`update mails set state = ${state}, says = ${text}, approved_by = ${text}, bytes = ${Buffer.from(text)},
          approved_at = ${later(95)}, handed_at = ${later(96)}, due_at = ${later(97)} where id = ${id}`,
      )
    })
  }
}

/** Its machine goes through a sale, with the builder's words in the message, and is handed over. */
async function someSale(store: Store, tag: string, text: string): Promise<void> {
  const uses = sellUsesOf(store, () => later(90))
  unwrapped(await uses.startSale(tag))
  for (const step of LEAVABLE) await uses.leaveOutStep(tag, step, step !== 'message')
  // As an older program may have kept them: nothing read them before.
  const words = { subject: text, opening: text, closing: text }
  await store.write((tx) => updateSale(tx, tag, { words }))
  unwrapped(await uses.handOver(tag))
}

/** A round in which this machine's owner is asked, with everybody's words about it; gives the link of the offer. */
async function someRound(store: Store, tag: string, text: string): Promise<string> {
  const [asked] = await store.db.all<{ id: string; who: string }>(
    sql`select q.id as id, m.customer_id as who from questions q join machines m on m.tag = q.machine_tag
      where m.tag = ${tag} limit 1`,
  )
  const [item] = await store.db.all<{ id: string }>(sql`select id from shelf_items limit 1`)
  if (asked === undefined || item === undefined) throw new Error('nobody to offer anything')
  const answer = unwrapped(await answerQuestion(store, asked.id, AT))
  const { ranked, withoutNumber } = answer.ranking
  const token = newYesToken()
  await store.write(async (tx) => {
    await insertRound(tx, {
      ...{ id: 'O-0001', kind: 'shelf', state: 'going out', createdAt: AT, createdBy: text },
      source: { from: 'matching', matchingId: '1', overOffer: 2, quietDays: 90 },
      ...{ validUntil: later(9000), yeses: 1, trouble: text, preparedAt: AT, begunAt: AT, begunBy: text },
      items: [{ itemId: item.id, quantity: 1 }],
    })
    await insertSeats(tx, 'O-0001', [
      {
        ...{ customerId: asked.who, machineTag: tag, questionId: asked.id, itemId: item.id, pct: 20 },
        ...{ optionId: [...ranked, ...withoutNumber][0]?.id, dueMinor: 100, standing: 'to settle' },
        ...{ yesNumber: 1, saidAt: AT, saidBy: text, leftBecause: text, leftNote: text, trouble: text },
        ...{ askedAt: AT, needs: [{ itemId: item.id, quantity: 1 }] },
      },
    ])
    await updateSeat(tx, '1', { draft: answer })
    await insertRoundLink(tx, { tokenHash: yesHash(token), seatId: '1', createdAt: AT })
    await addRoundNote(tx, 'O-0001', { at: AT, event: 'leave out', seatId: '1', by: text, says: text })
  })
  return token
}

type Shop = Awaited<ReturnType<typeof hostileShop>>

/** Every address a GET route has in this shop, with what can stand in its query; of each noun so many at most. */
export async function addressesOf(
  { rows, token, yesToken }: Shop,
  text: string,
  most = 12,
): Promise<string[]> {
  const keys: Readonly<Record<string, string[]>> = {
    questions: await rows(sql`select id as key from questions limit ${most}`),
    answers: await rows(sql`select id as key from answers`),
    messages: await rows(sql`select id as key from messages`),
    machines: await rows(sql`select tag as key from machines limit ${most}`),
    sell: await rows(sql`select machine_tag as key from sales`),
    parts: await rows(sql`select id as key from parts limit ${most}`),
    jobs: await rows(sql`select id as key from jobs`),
    outbox: await rows(sql`select id as key from mails`),
    customers: await rows(sql`select id as key from customers limit ${most}`),
    photos: ['1'],
    export: ['customers.csv', 'machines.csv'],
    o: [token],
    y: [yesToken],
    rounds: ['O-0001'],
  }
  const said = encodeURIComponent(text)
  const query = [
    'q',
    'group',
    'kind',
    'mail',
    'approved',
    'from',
    'to',
    'machine',
    'option',
    'enter',
    'question',
    'key',
    'text',
    'asks',
    'pasted',
    'page',
    'item',
    'all',
  ]
    .map((name) => `${name}=${said}`)
    .join('&')
  return RIGHTS.filter(({ method }) => method === 'GET').flatMap(({ path }) => {
    const place = path.replace('/api/v1', '').split('/')[1] ?? ''
    // To draw a paper takes half a second, and its words are those of the page beside it.
    const known = (keys[place] ?? []).slice(0, path.endsWith('.pdf') ? 2 : undefined)
    const filled = /[:*]/.test(path)
      ? [...known, text].map((key) =>
          path
            .replace(/:\w+|\*/, encodeURIComponent(key))
            .replace('/handed/:id', '/handed/1')
            .replace('/seats/:seat', '/seats/1'),
        )
      : [path]
    // What is asked along is read the same way for every key, so a few of each kind do.
    return filled.flatMap((address, n) => (n < 3 ? [address, `${address}?${query}`] : [address]))
  })
}
