import type { AnswerInputs } from '../../src/core/answer.ts'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import { GAIN_KINDS } from '../../src/core/ranking/shelf.ts'
import { resultOf, type SeatFacts } from '../../src/core/round/result.ts'
import { sumsOf } from '../../src/core/round/round.ts'
import type { RoundState, Standing } from '../../src/core/round/states.ts'
import { failed, ok } from '../../src/problem.ts'
import type { Mail } from '../../src/store/outbox.ts'
import type { RoundView, SeatLine } from '../../src/uses/rounds/roundViews.ts'
import type { OfferView } from '../../src/uses/rounds/yes.ts'
import type { RoundUses } from '../../src/web/roundUses.ts'
import { inputs, NOW } from './cannedShop.ts'
import type { PageState } from './states.ts'

const UNTIL = '2026-06-26T15:00:00.000Z'

/** The first option of the canned answer that puts something in. */
function offerOf(from: AnswerInputs) {
  const answer = computeAnswer(from, NOW)
  const { ranked, withoutNumber } = answer.ranking
  const option = [...ranked, ...withoutNumber].find(({ shelfItemIds }) => shelfItemIds.length > 0)
  return { answer, option, itemId: option?.shelfItemIds[0] ?? from.shelf[0]?.id ?? '' }
}

const NAMES = [
  'Isolde Kray',
  'Bram Odell',
  'Mette Lund',
  'Carlo Venn',
  'Ines Corr',
  'Tomas Reed',
  'Una Blyth',
]

function mailOf(state: Mail['state'], says?: string): Mail {
  return {
    ...{ id: '7', kind: 'offer', state, toName: 'Isolde Kray', toAddress: 'isolde@example.org' },
    ...{ subject: 'T-0007: an offer', html: '<p>An offer</p>', text: 'An offer', tries: 0, says },
    ...{ rfcMessageId: '<7@example.com>', createdAt: NOW, updatedAt: NOW, sentAt: NOW },
  }
}

type Given = { readonly standing: Standing; readonly mail?: Mail; readonly more?: Partial<SeatLine> }

/** A round in which somebody stands everywhere. */
function viewOf(
  from: AnswerInputs,
  state: RoundState,
  given: readonly Given[],
  more: Partial<RoundView['row']> = {},
): RoundView {
  const { option, itemId } = offerOf(from)
  const kind = more.kind ?? 'shelf'
  const seats = given.map(({ standing, mail, more: extra }, i): SeatLine => {
    const facts: SeatFacts = {
      ...{ id: String(i + 1), standing, questions: 0, dueMinor: 12_900 },
      mail:
        mail === undefined
          ? 'none'
          : mail.state === 'sent' || mail.state === 'stopped'
            ? mail.state
            : mail.state === 'held'
              ? 'in doubt'
              : 'waiting',
      ...(standing === 'done' && { paidMinor: 12_900, costMinor: 9000, promise: 'kept', gainedPct: 31.5 }),
    }
    return {
      ...{ id: String(i + 1), roundId: 'O-0001', position: i, customerId: `CU-${i + 1}`, name: NAMES[i] },
      ...{ machineTag: `T-00${10 + i}`, questionId: 'Q-0007', itemId, optionId: option?.id, pct: 32 },
      ...{ dueMinor: 12_900, isDrafted: state === 'draft', answerId: state === 'draft' ? undefined : '1' },
      ...{
        standing,
        mail,
        mailId: mail?.id,
        askedAt: mail === undefined ? undefined : NOW,
        questions: [],
        others: [],
        isToTell: (standing === 'not bought' || standing === 'too late') && extra?.toldMailId === undefined,
        canBePutBack: standing === 'left out' && extra?.leftBecause !== 'does not fit',
        facts,
      },
      ...extra,
    }
  })
  const asked = seats.filter(({ standing }) => standing !== 'left out').length
  return {
    row: {
      ...{ id: 'O-0001', kind, state, source: {}, createdAt: NOW, createdBy: 'Ada', validUntil: UNTIL },
      begunAt: state === 'draft' || state === 'called off' ? undefined : NOW,
      ...{ yeses: 2, preparedAt: NOW, wantedYeses: kind === 'deal' ? 2 : undefined, ...more },
    },
    source: { from: 'matching', matchingId: '1', overOffer: 1.5, quietDays: 90 },
    seats,
    items: from.shelf
      .filter(({ id }) => id === itemId)
      .map((item) => ({ item, quantity: 2, left: 1, free: 3, asked })),
    ...{ parts: from.parts, shelf: from.shelf, seen: 'mark', isOpenDeal: kind === 'deal' },
    result: resultOf(
      seats.map(({ facts }) => facts),
      state,
    ),
    notices: {
      toWrite: seats.filter(({ standing }) => standing === 'not bought').length,
      drafted: seats.flatMap(({ toldState }) => (toldState === 'drafted' ? '7' : [])),
    },
    ...{ prepared: { done: asked, of: asked }, written: { done: asked, of: asked }, hasReach: true },
    notes: [
      { at: NOW, event: 'made', by: 'Ada' },
      { at: NOW, event: 'leave out', seatId: '2', by: 'Ada', says: 'Bought one elsewhere' },
    ],
    shop: from.shop,
  }
}

const ASKED: Given = { standing: 'asked' }
const LEFT: Given = {
  standing: 'left out',
  more: { leftBecause: 'by hand', leftNote: 'Bought one elsewhere', isDrafted: false },
}
const ABOVE: Given = {
  standing: 'left out',
  more: { leftBecause: 'above the ceiling', ceilingMinor: 10_000, isDrafted: false },
}
const TAKEN_IN: Given = {
  standing: 'asked',
  more: {
    ...{ leftBecause: 'above the ceiling', ceilingMinor: 10_000 },
    others: [{ machineTag: 'T-0099', pct: 12 }],
  },
}
const CANNOT: Given = {
  standing: 'left out',
  more: { leftBecause: 'does not fit', optionId: undefined, pct: undefined, dueMinor: undefined },
}
const yes = (yesNumber: number) => ({ yesNumber, saidAt: NOW })

const GOING: readonly Given[] = [
  { standing: 'asked', mail: mailOf('sent') },
  { standing: 'asked', mail: mailOf('approved') },
  { standing: 'asked', mail: mailOf('held') },
  { standing: 'asked', mail: mailOf('stopped', 'no consent') },
  { standing: 'held', mail: mailOf('sent'), more: yes(1) },
  {
    standing: 'too late',
    mail: mailOf('sent'),
    more: { ...yes(2), saidBy: 'Ada', toldMailId: '7', toldState: 'drafted' },
  },
  {
    standing: 'to settle',
    mail: mailOf('sent'),
    more: { ...yes(3), trouble: 'T-0015 has an open job already.' },
  },
  { standing: 'done', mail: mailOf('sent'), more: yes(4) },
  LEFT,
]

const views = (from: AnswerInputs): Readonly<Record<string, RoundView>> => ({
  'O-0001': { ...viewOf(from, 'going out', GOING), nextSeat: '6' },
  'O-0002': viewOf(from, 'draft', [ASKED, TAKEN_IN, LEFT, ABOVE, CANNOT]),
  'O-0003': {
    ...viewOf(from, 'draft', [ASKED, ASKED, ASKED], { preparedAt: undefined }),
    prepared: { done: 1, of: 3 },
  },
  'O-0004': viewOf(from, 'draft', [], { preparedAt: undefined, trouble: 'fault' }),
  'O-0005': viewOf(from, 'paused', GOING),
  'O-0006': viewOf(from, 'ended', GOING),
  'O-0007': viewOf(from, 'going out', [{ standing: 'counted', mail: mailOf('sent'), more: yes(1) }, ASKED], {
    kind: 'deal',
  }),
  'O-0008': viewOf(
    from,
    'called off',
    [
      { standing: 'not bought', mail: mailOf('sent'), more: yes(1) },
      { standing: 'let go', mail: mailOf('sent'), more: yes(2) },
      { standing: 'asked', mail: mailOf('stopped', 'round stopped') },
    ],
    { kind: 'deal', begunAt: NOW },
  ),
  'O-0010': viewOf(from, 'draft', [ASKED], { kind: 'deal' }),
  'O-0011': viewOf(from, 'called off', [ASKED], { kind: 'deal' }),
  'O-0009': { ...viewOf(from, 'draft', []), hasReach: false },
})

/** What stands behind each link of an offer; its end tells which. */
export const offerViews = (from: AnswerInputs): Readonly<Record<string, OfferView>> => {
  const { answer, option } = offerOf(from)
  const asked: OfferView = {
    ...{
      answer,
      optionId: option?.id ?? '',
      standing: 'asked',
      isOpen: true,
      isLeft: true,
      left: 1,
      asked: 3,
    },
    ...{ validUntil: UNTIL, isCalledOff: false, hadTooFew: true, isUnderWay: false },
  }
  const german = {
    ...asked,
    answer: { ...answer, inputs: { ...from, customer: { ...from.customer, language: 'de' } as never } },
  }
  return {
    asked,
    german,
    ...{ held: { ...asked, standing: 'held' }, bench: { ...asked, standing: 'held', isUnderWay: true } },
    ...{ late: { ...asked, standing: 'too late', isLeft: false }, again: { ...asked, standing: 'too late' } },
    ...{ gone: { ...asked, isLeft: false, left: 0 }, over: { ...asked, isOpen: false } },
    ...{ no: { ...asked, standing: 'said no' }, back: { ...asked, standing: 'let go' } },
    settle: { ...asked, standing: 'to settle' },
    booked: { ...asked, standing: 'held', bookedFor: UNTIL },
    ended: { ...asked, isOpen: false, endedAt: NOW },
    'back-over': { ...asked, standing: 'let go', isOpen: false, endedAt: NOW },
    'off-enough': { ...asked, isCalledOff: true, hadTooFew: false },
    ...{ done: { ...asked, standing: 'done' }, off: { ...asked, isCalledOff: true } },
    deal: { ...asked, deal: { wanted: 2, counted: 1 } },
    line: { ...asked, standing: 'too late', isLeft: false, deal: { wanted: 2, counted: 2 } },
    counted: { ...asked, standing: 'counted', deal: { wanted: 2, counted: 2 } },
  }
}

const done =
  (calls: unknown[][], name: string) =>
  async (...given: unknown[]) => {
    calls.push([name, ...given])
    return ok({ roundId: 'O-0001' })
  }

export const cannedRoundUses = (from: AnswerInputs, calls: unknown[][]): RoundUses => ({
  rounds: async () => ({
    rounds: Object.values(views(from)).map(({ row, seats }, i) => ({
      ...{ ...row, id: `O-000${i + 1}`, itemIds: [] },
      seats: sumsOf({ seats: seats.map(({ id, standing }) => ({ id, standing, needs: [], dueMinor: 0 })) })
        .seats,
    })),
    shelf: from.shelf.flatMap((item) => {
      const part = from.parts.find(({ id }) => id === item.partId)
      if (part === undefined || !GAIN_KINDS.has(part.kind) || item.quantity === 0) return []
      return [{ item, part, standing: item.quantity, putAside: [] }]
    }),
    findable: [],
    shop: from.shop,
  }),
  round: async (id) => {
    const all = views(from)
    const key = id === '1' ? 'O-0001' : id
    const view = Object.hasOwn(all, key) ? all[key] : undefined
    if (view !== undefined) return ok(view)
    return failed({ code: 'not found', field: 'round', got: id, next: 'There is no such round.' })
  },
  offerMail: async () => ok({ subject: 'An offer', html: '<p>An offer</p>', text: 'An offer' }),
  roundFromMatching: done(calls, 'roundFromMatching'),
  roundFromItem: async (ask) => {
    calls.push(['roundFromItem', ask])
    if (from.shelf.some(({ id }) => id === ask.of)) return ok({ roundId: 'O-0001' })
    return failed({ code: 'not found', field: 'of', got: ask.of, next: 'Choose a shelf item.' })
  },
  beginRound: async (id, seen) => {
    calls.push(['beginRound', id, seen])
    if (seen === 'mark') return ok({ roundId: 'O-0001' })
    return failed({ code: 'conflict', field: 'round', next: 'This round changed since you looked at it.' })
  },
  ...{ pauseRound: done(calls, 'pauseRound'), resumeRound: done(calls, 'resumeRound') },
  ...{ stopRound: done(calls, 'stopRound'), endRound: done(calls, 'endRound') },
  ...{ callOffRound: done(calls, 'callOffRound'), boughtFor: done(calls, 'boughtFor') },
  ...{ prepareAgain: done(calls, 'prepareAgain'), leaveOut: done(calls, 'leaveOut') },
  ...{
    putBack: done(calls, 'putBack'),
    sayFor: done(calls, 'sayFor'),
    bookFor: done(calls, 'bookFor'),
    letGo: done(calls, 'letGo'),
  },
  ...{ giveTo: done(calls, 'giveTo'), askAnew: done(calls, 'askAnew') },
  tellGone: async (...given) => {
    calls.push(['tellGone', ...given])
    return ok({ mailId: '7' })
  },
  tellAll: async (...given) => {
    calls.push(['tellAll', ...given])
    return ok({ mailIds: ['7', '8'], problems: [] })
  },
  offerByLink: async (token) => {
    const view = offerViews(from)[token]
    return view === undefined ? failed({ code: 'not found', field: 'link', next: 'Nowhere.' }) : ok(view)
  },
  sayByLink: async (token, says) => {
    calls.push(['sayByLink', token, says])
    const view = offerViews(from)[token]
    return view === undefined ? failed({ code: 'not found', field: 'link', next: 'Nowhere.' }) : ok(view)
  },
})

const NOTHING: Partial<RoundUses> = {
  rounds: async () => ({ rounds: [], shelf: [], findable: [], shop: inputs.shop }),
}

export const ROUND_STATES: readonly PageState[] = [
  { name: 'rounds', path: '/rounds' },
  { name: 'rounds-none', path: '/rounds', uses: NOTHING },
  { name: 'rounds-wrong', path: '/rounds', form: { of: 'S-999', pieces: 'many' }, status: 422 },
  { name: 'round-going', path: '/rounds/O-0001' },
  { name: 'round-counted', path: '/rounds/O-0001?show=yes' },
  { name: 'round-draft', path: '/rounds/O-0002' },
  { name: 'round-preparing', path: '/rounds/O-0003' },
  { name: 'round-trouble', path: '/rounds/O-0004' },
  { name: 'round-paused', path: '/rounds/O-0005' },
  { name: 'round-ended', path: '/rounds/O-0006' },
  { name: 'round-deal', path: '/rounds/O-0007' },
  { name: 'round-not-bought', path: '/rounds/O-0008' },
  { name: 'round-nobody', path: '/rounds/O-0009' },
  { name: 'round-deal-draft', path: '/rounds/O-0010' },
  { name: 'round-deal-dropped', path: '/rounds/O-0011' },
  {
    ...{ name: 'round-day-wrong', path: '/rounds/O-0001/seats/5/book', status: 422 },
    form: { 'bookedDay.5': 'soon', 'bookedTime.5': '26:00' },
  },
  { name: 'round-unknown', path: '/rounds/O-9999', status: 404 },
  { name: 'round-changed', path: '/rounds/O-0002/begin', form: { seen: 'another' }, status: 409 },
  { name: 'round-bought-wrong', path: '/rounds/O-0007/bought', form: { boughtPieces: 'x' }, status: 422 },
  ...Object.keys(offerViews(inputs)).map((name) => ({ name: `offer-${name}`, path: `/y/${name}` })),
  { name: 'offer-nowhere', path: '/y/nowhere', status: 404 },
]
