import { z } from '@hono/zod-openapi'
import { JOB_STATES } from '../../../core/job/states.ts'
import { COUNTED } from '../../../core/round/result.ts'
import { ROUND_KINDS, ROUND_STATES, STANDINGS } from '../../../core/round/states.ts'
import { ok, type Result } from '../../../problem.ts'
import type { RoundLine, RoundView, SeatLine } from '../../../uses/rounds/roundViews.ts'
import { instant, key, keyInPath, minor, named, told } from '../describe.ts'
import { endpoint, pageOf, paging, pieceOf } from '../endpoint.ts'

const id = keyInPath('The key of the round.', 'O-0001')
const state = z.enum(ROUND_STATES)
const standing = z.enum(STANDINGS)

const roundFields = {
  id: key,
  kind: told(
    z.enum(ROUND_KINDS),
    'What stands on the shelf, or a part that is bought only if enough want it.',
  ),
  state,
  createdAt: instant,
  validUntil: told(instant, 'Until when a yes is taken.'),
  begunAt: instant.optional(),
  findableId: told(key, 'Of a deal: the part that could be bought.').optional(),
  wantedYeses: told(z.int(), 'Of a deal: so many yeses make it worth buying.').optional(),
  boughtPieces: z.int().optional(),
}

const roundLine = named(
  'RoundLine',
  z.strictObject({
    ...roundFields,
    itemIds: z.array(key),
    standings: told(
      z.array(z.strictObject({ standing, customers: z.int() })),
      'How many customers stand where; together all of the round, those left out included.',
    ),
  }),
)

const seat = z.strictObject({
  id: key,
  customerId: key,
  customerName: z.string().optional(),
  machineTag: key.optional(),
  itemId: key.optional(),
  optionId: z.string().optional(),
  gainPct: told(z.number(), 'The useful gain in percent, as it was found.').optional(),
  dueMinor: minor.optional(),
  ceilingMinor: told(minor, 'The most that they named to spend, where the offer costs more.').optional(),
  otherMachines: told(z.array(key), 'Other machines of theirs that could take it.'),
  standing,
  leftBecause: z.string().optional(),
  leftNote: z.string().optional(),
  mail: z.enum(['none', 'waiting', 'sent', 'in doubt', 'stopped', 'failed']),
  yesNumber: told(z.int(), 'The how manieth yes of the round; kept when it is given back.').optional(),
  saidAt: instant.optional(),
  saidBy: told(z.string(), 'Who wrote it down; absent where they said it by their link.').optional(),
  jobId: key.optional(),
  jobState: z.enum(JOB_STATES).optional(),
  trouble: told(z.string(), 'What a person has to settle.').optional(),
})

const round = named(
  'Round',
  z.strictObject({
    ...roundFields,
    items: z.array(z.strictObject({ itemId: key, quantity: z.int(), left: z.int(), asked: z.int() })),
    result: z.strictObject({
      numbers: told(
        z.array(z.strictObject({ what: z.enum(COUNTED), seatIds: z.array(key) })),
        'Each number as the customers it counts. Who is asked is counted once by mail (sent, waiting, in doubt, not sent) and once by what they said (no answer, yes, no, given back, not bought).',
      ),
      toComeMinor: told(minor, 'Of what is put aside and not paid.'),
      earnedMinor: minor,
      marginMinor: told(
        minor,
        'What was paid less what the pieces cost, where every cost was said.',
      ).optional(),
      gainedPct: told(z.number(), 'Measured, the mean over machines.').optional(),
    }),
    toTell: told(z.int(), 'Yeses in vain to whom nobody wrote yet.'),
    seats: z.array(seat),
  }),
)

const fieldsOf = (r: RoundLine | RoundView['row']) => ({
  ...{ id: r.id, kind: r.kind, state: r.state, createdAt: r.createdAt, validUntil: r.validUntil },
  ...{ begunAt: r.begunAt, findableId: r.findableId, wantedYeses: r.wantedYeses },
  boughtPieces: r.boughtPieces,
})

const lineOf = (line: RoundLine) => ({
  ...{ ...fieldsOf(line), itemIds: [...line.itemIds] },
  standings: STANDINGS.map((one) => ({ standing: one, customers: line.seats[one] })),
})

const seatOf = (s: SeatLine) => ({
  ...{ id: s.id, customerId: s.customerId, customerName: s.name, machineTag: s.machineTag },
  ...{ itemId: s.itemId, optionId: s.optionId, gainPct: s.pct, dueMinor: s.dueMinor },
  ...{ ceilingMinor: s.ceilingMinor, otherMachines: s.others.map(({ machineTag }) => machineTag) },
  ...{ standing: s.standing, leftBecause: s.leftBecause, leftNote: s.leftNote, mail: s.facts.mail },
  ...{ yesNumber: s.yesNumber, saidAt: s.saidAt, saidBy: s.saidBy },
  ...{ jobId: s.job?.id, jobState: s.job?.state },
  ...(s.standing === 'to settle' && { trouble: s.trouble }),
})

/** No key is told what pieces cost, so none is told what was left of the money either. */
const viewOf = ({ row, items, result, notices, seats }: RoundView) => ({
  ...fieldsOf(row),
  items: items.map(({ item, quantity, left, asked }) => ({ itemId: item.id, quantity, left, asked })),
  result: {
    numbers: COUNTED.map((what) => ({ what, seatIds: [...result.of[what]] })),
    ...{ toComeMinor: result.toComeMinor, earnedMinor: result.earnedMinor },
    gainedPct: result.gainedPct,
  },
  ...{ toTell: notices.toWrite, seats: seats.map(seatOf) },
})

/** What was done, with the round as it stands then. */
const then = async (
  done: Result<unknown>,
  view: () => Promise<Result<RoundView>>,
): Promise<Result<ReturnType<typeof viewOf>>> => {
  if (!done.ok) return done
  const found = await view()
  return found.ok ? ok(viewOf(found.value)) : found
}

const STEPS = ['pause', 'resume', 'stop'] as const

export const roundEndpoints = [
  endpoint({
    id: 'listRounds',
    ...{ method: 'get', path: '/rounds', group: 'Rounds of offers', scope: 'read' },
    says: 'Rounds of offers to previous customers, the newest first.',
    query: z.strictObject({ state: state.optional(), ...paging }),
    answer: pageOf(roundLine),
    run: async ({ uses }, { query }) => {
      const { rounds } = await uses.rounds()
      const found = rounds.filter((line) => query.state === undefined || line.state === query.state)
      return ok(pieceOf(found.map(lineOf), query))
    },
  }),
  endpoint({
    id: 'getRound',
    ...{ method: 'get', path: '/rounds/{id}', group: 'Rounds of offers', scope: 'read' },
    says: 'One round with its customers and what came of it.',
    params: z.strictObject({ id }),
    answer: round,
    run: async ({ uses }, { params }) => {
      const found = await uses.round(params.id)
      return found.ok ? ok(viewOf(found.value)) : found
    },
  }),
  endpoint({
    id: 'stepRound',
    ...{ method: 'post', path: '/rounds/{id}/steps', group: 'Rounds of offers', scope: 'write' },
    says: 'Pauses a round (what waits to be sent waits on), resumes it, or stops it for good (no further mail goes out). A round is made and sent off by a person.',
    params: z.strictObject({ id }),
    body: z.strictObject({ step: z.enum(STEPS) }),
    answer: round,
    run: async ({ uses }, { params, body, by }) => {
      const steps = { pause: uses.pauseRound, resume: uses.resumeRound, stop: uses.stopRound }
      return then(await steps[body.step](params.id, by), () => uses.round(params.id))
    },
  }),
  endpoint({
    id: 'sayForCustomer',
    ...{ method: 'post', path: '/rounds/{id}/seats/{seat}/said', group: 'Rounds of offers', scope: 'write' },
    says: 'Writes down the yes or no of a customer that came by mail, phone or over the counter. A yes puts the parts aside in a job that is agreed, with a day booked; where nothing is left it stands in line. Said again it changes nothing.',
    params: z.strictObject({ id, seat: keyInPath('The customer in the round, as the round names it.', '1') }),
    body: z.strictObject({
      says: z.enum(['yes', 'no']),
      bookedFor: told(instant, 'The day and time of the work; of a yes alone.').optional(),
    }),
    answer: round,
    run: async ({ uses }, { params, body, by }) => {
      const day = body.says === 'yes' ? body.bookedFor : undefined
      return then(await uses.sayFor(params.id, params.seat, body.says, day, by), () => uses.round(params.id))
    },
  }),
]
