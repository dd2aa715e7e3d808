import { describe, expect, test } from 'vitest'
import { readBounce } from '../../../src/core/outbox/bounce.ts'
import { hindrancesOf, passesAt, standing } from '../../../src/core/outbox/hindrance.ts'
import { MAIL_KINDS, MAIL_STATES, mayFollow } from '../../../src/core/outbox/mail.ts'
import { cappedUntil, OFFER_RULES, quietUntil } from '../../../src/core/outbox/offerRules.ts'
import { outcomeOf } from '../../../src/core/outbox/outcome.ts'
import { GIVE_UP_MS, nextTryAt, serverWaitMs } from '../../../src/core/outbox/retry.ts'
import { staleReasons } from '../../../src/core/outbox/stale.ts'
import { whyWaits } from '../../../src/core/outbox/whyWaits.ts'

const MINUTE = 60_000
const AT = '2026-11-30T15:00:00.000Z'
const after = (minutes: number): string => new Date(Date.parse(AT) + minutes * MINUTE).toISOString()

test('nothing goes out unapproved, and nothing that was sent goes out again by any road', () => {
  for (const state of MAIL_STATES) expect(mayFollow(state, 'sending'), state).toBe(state === 'approved')
  expect(MAIL_STATES.filter((to) => mayFollow('sent', to))).toEqual(['failed'])
  // Only a person leads a failed or a held one back, by the very same bytes.
  expect(mayFollow('held', 'sending')).toBe(false)
  expect(mayFollow('stopped', 'approved')).toBe(false)
})

describe('RFC 5321, 4.2.1: 4yz may be tried again, 5yz may not', () => {
  const trouble = { isAboutTheMail: true, isReplyToDot: false, isHandedOver: false, says: 'x' }
  test.each([
    [450, 'later'],
    [451, 'later'],
    [452, 'later'],
    [550, 'never'],
    [552, 'never'],
    [554, 'never'],
    // 421 closes the channel, the others are about our sign-in (RFC 4954, 6): no mail is at fault.
    [421, 'server'],
    [454, 'server'],
    [530, 'server'],
    [535, 'server'],
  ] as const)('%i is %s', (replyCode, is) => {
    expect(outcomeOf({ ...trouble, replyCode })).toEqual({ is, says: 'x' })
  })
  test('without a reply, and before the mail was handed over, the server is in the way', () => {
    expect(outcomeOf(trouble).is).toBe('server')
    expect(outcomeOf({ ...trouble, isAboutTheMail: false, replyCode: 554 }).is).toBe('server')
  })
  test('RFC 1047: after the final dot, no reply means nobody knows', () => {
    expect(outcomeOf({ ...trouble, isHandedOver: true }).is).toBe('unknown')
    // A code that came before the dot says nothing of it.
    expect(outcomeOf({ ...trouble, isHandedOver: true, replyCode: 421 }).is).toBe('unknown')
    expect(outcomeOf({ ...trouble, isHandedOver: true, isReplyToDot: true, replyCode: 451 }).is).toBe('later')
    expect(outcomeOf({ ...trouble, isHandedOver: true, isReplyToDot: true, replyCode: 554 }).is).toBe('never')
  })
})

test('RFC 5321, 4.5.4.1: two tries in the first hour, then at least half an hour apart, given up after 4 to 5 days', () => {
  const tries: number[] = [0]
  for (let n = 1; ; n += 1) {
    const next = nextTryAt(n, AT, after(tries.at(-1) ?? 0))
    if (next === undefined) break
    tries.push((Date.parse(next) - Date.parse(AT)) / MINUTE)
  }
  expect(tries.filter((minute) => minute <= 60).length).toBeGreaterThanOrEqual(2)
  const gaps = tries.slice(1).map((minute, i) => minute - (tries[i] ?? 0))
  for (const gap of gaps.slice(1)) expect(gap).toBeGreaterThanOrEqual(30)
  const days = (tries.at(-1) ?? 0) / (24 * 60)
  expect(days).toBeGreaterThan(4)
  expect(days).toBeLessThanOrEqual(5)
  expect(GIVE_UP_MS).toBe(5 * 24 * 60 * MINUTE)
})

test('a server in the way is asked less and less often, a quarter of an hour apart at most', () => {
  expect([1, 2, 3, 4, 20].map(serverWaitMs)).toEqual([10_000, 20_000, 40_000, 80_000, 900_000])
})

describe('quiet hours of the shop’s zone', () => {
  const rules = { ...OFFER_RULES, quietFromHour: 20, quietUntilHour: 9 }
  test.each([
    // Chicago is UTC-6 in winter (tz database): 19:59, 20:00, 8:59 and 9:00 there.
    ['2026-12-01T01:59:00.000Z', 'America/Chicago', undefined],
    ['2026-12-01T02:00:00.000Z', 'America/Chicago', '2026-12-01T15:00:00.000Z'],
    ['2026-12-01T14:59:59.000Z', 'America/Chicago', '2026-12-01T15:00:00.000Z'],
    ['2026-12-01T15:00:00.000Z', 'America/Chicago', undefined],
    // Clocks go forward at 2:00 on 2026-03-08: the night is an hour shorter.
    ['2026-03-08T03:00:00.000Z', 'America/Chicago', '2026-03-08T14:00:00.000Z'],
    // Nepal is UTC+5:45.
    ['2026-12-01T15:00:00.000Z', 'Asia/Kathmandu', '2026-12-02T03:15:00.000Z'],
  ])('%s in %s', (at, zone, until) => {
    expect(quietUntil(at, rules, zone)).toBe(until)
  })
  test('within one day, and never where both are the same', () => {
    const noon = { ...rules, quietFromHour: 12, quietUntilHour: 14 }
    expect(quietUntil('2026-12-01T13:30:00.000Z', noon, 'UTC')).toBe('2026-12-01T14:00:00.000Z')
    const never = { ...rules, quietFromHour: 9, quietUntilHour: 9 }
    expect(quietUntil('2026-12-01T09:30:00.000Z', never, 'UTC')).toBeUndefined()
  })
})

test('the cap: the third offer in 30 days waits until the first of the two before is 30 days old', () => {
  const rules = { ...OFFER_RULES, capOffers: 2, capDays: 30 }
  expect(cappedUntil(AT, [], rules)).toBeUndefined()
  expect(cappedUntil(AT, ['2026-11-20T10:00:00.000Z'], rules)).toBeUndefined()
  const two = ['2026-11-20T10:00:00.000Z', '2026-11-10T10:00:00.000Z']
  expect(cappedUntil(AT, two, rules)).toBe('2026-12-10T10:00:00.000Z')
  // Of three the newer two are in the way.
  expect(cappedUntil(AT, [...two, '2026-11-02T10:00:00.000Z'], rules)).toBe('2026-12-10T10:00:00.000Z')
  expect(cappedUntil('2026-12-10T10:00:00.001Z', two, rules)).toBeUndefined()
})

describe('what stands in the way', () => {
  const NO_QUIET = { ...OFFER_RULES, quietFromHour: 0, quietUntilHour: 0 }
  const facts = {
    ...({
      kind: 'offer',
      mayOffer: false,
      isErased: false,
      offersSentAt: [],
      isMachineTheirs: true,
    } as const),
    ...{ postalAddress: ' ', hasOneClick: false },
  }
  test('an offer without consent, postal address and one-click address has three', () => {
    const found = hindrancesOf(facts, OFFER_RULES, AT, 'UTC')
    expect(found.map(({ why }) => why)).toEqual(['no consent', 'no postal address', 'no one-click address'])
    expect(standing(found)).toEqual(found)
  })
  test('an offer for a machine that is said to have gone waits a week, then there is nothing to offer for', () => {
    const of = (more: object, at: string) =>
      hindrancesOf(
        { ...facts, ...more, mayOffer: true, postalAddress: 'x', hasOneClick: true },
        NO_QUIET,
        at,
        'UTC',
      )
    const partingEndsAt = '2026-12-07T15:00:00.000Z'
    expect(of({ partingEndsAt }, AT)).toEqual([{ why: 'said gone', until: partingEndsAt }])
    expect(of({ partingEndsAt }, partingEndsAt)).toEqual([{ why: 'machine gone' }])
    expect(of({ isMachineTheirs: false }, AT)).toEqual([{ why: 'machine gone' }])
    expect(of({}, AT)).toEqual([])
    // What answers a question about it goes all the same.
    expect(of({ kind: 'answer', isMachineTheirs: false, partingEndsAt }, AT)).toEqual([])
  })
  test('every other kind goes without them, also at night', () => {
    for (const kind of MAIL_KINDS.filter((k) => k !== 'offer'))
      expect(hindrancesOf({ ...facts, kind }, OFFER_RULES, '2026-11-30T23:00:00.000Z', 'UTC'), kind).toEqual(
        [],
      )
  })
  test('whoever was erased, or whose mail came back, gets none of any kind', () => {
    for (const kind of MAIL_KINDS) {
      expect(standing(hindrancesOf({ ...facts, kind, isErased: true }, OFFER_RULES, AT, 'UTC'))).toEqual([
        { why: 'erased' },
      ])
      const back = hindrancesOf({ ...facts, kind, cameBackAt: AT }, OFFER_RULES, AT, 'UTC')
      expect(back).toContainEqual({ why: 'came back', at: AT })
    }
  })
  test('quiet hours and cap pass by themselves, the later one counts', () => {
    const willing = { ...facts, mayOffer: true, postalAddress: '1 Sample Street', hasOneClick: true }
    const sent = ['2026-11-20T10:00:00.000Z', '2026-11-25T10:00:00.000Z']
    const found = hindrancesOf(
      { ...willing, offersSentAt: sent },
      OFFER_RULES,
      '2026-11-30T23:00:00.000Z',
      'UTC',
    )
    expect(found.map(({ why }) => why)).toEqual(['quiet hours', 'cap'])
    expect(standing(found)).toEqual([])
    expect(passesAt(found)).toBe('2026-12-20T10:00:00.000Z')
  })
})

describe('an offer of a round', () => {
  const free = {
    ...({ kind: 'offer', mayOffer: true, isErased: false, isMachineTheirs: true } as const),
    ...{ offersSentAt: [], postalAddress: 'x', hasOneClick: true },
  }
  const NO_QUIET = { ...OFFER_RULES, quietFromHour: 0, quietUntilHour: 0, capOffers: 99 }
  const of = (more: object, at = AT) => hindrancesOf({ ...free, ...more }, NO_QUIET, at, 'UTC')

  test('does not go once its date is over, up to its last instant it does', () => {
    const validUntil = '2026-12-10T15:00:00.000Z'
    expect(of({ validUntil }, validUntil)).toEqual([])
    const over = of({ validUntil }, '2026-12-10T15:00:00.001Z')
    expect(over).toEqual([{ why: 'offer over' }])
    expect(standing(over)).toEqual(over)
    expect(of({ validUntil, kind: 'answer' }, '2027-01-01T00:00:00.000Z')).toEqual([])
  })

  test('waits for the days that the round lets its customers be after their last offer, to the instant', () => {
    const offersSentAt = ['2026-11-25T15:00:00.000Z', '2026-10-01T15:00:00.000Z']
    expect(of({ offersSentAt, quietDays: 10 })).toEqual([
      { why: 'quiet period', until: '2026-12-05T15:00:00.000Z' },
    ])
    expect(of({ offersSentAt, quietDays: 10 }, '2026-12-05T15:00:00.000Z')).toEqual([])
    expect(of({ offersSentAt, quietDays: 0 })).toEqual([])
    expect(of({ offersSentAt: [], quietDays: 10 })).toEqual([])
  })

  test('that may go only when its date is over does not wait', () => {
    const offersSentAt = ['2026-11-25T15:00:00.000Z']
    const until = '2026-12-05T15:00:00.000Z'
    expect(standing(of({ offersSentAt, quietDays: 10, validUntil: until }))).toEqual([])
    expect(standing(of({ offersSentAt, quietDays: 10, validUntil: '2026-12-05T14:59:59.999Z' }))).toEqual([
      { why: 'over by then', at: until },
    ])
  })
})

test('an answer is old when its price ran out, the question changed or a newer one was kept', () => {
  const answer = { at: AT, priceValidDays: 14 }
  expect(staleReasons(answer, { at: after(60), newestAnswerAt: AT })).toEqual([])
  const old = staleReasons(answer, {
    ...{ at: after(15 * 24 * 60), questionChangedAt: after(10), newestAnswerAt: after(20) },
  })
  expect(old.map(({ why }) => why)).toEqual(['price ran out', 'question changed', 'newer answer'])
  // A change from before the answer is in it.
  expect(staleReasons(answer, { at: after(60), questionChangedAt: after(-10) })).toEqual([])
})

test('why it waits: what a person can do something about comes first', () => {
  const waiting = {
    isPaused: false,
    isHindered: false,
    hasSender: true,
    dueAt: after(30),
    refusedSays: '451 greylisted',
  }
  const server = { says: 'ECONNREFUSED', nextTryAt: after(1) }
  expect(whyWaits({ ...waiting, isPaused: true, isHindered: true, server }, AT).why).toBe('round paused')
  expect(whyWaits({ ...waiting, isHindered: true, server }, AT).why).toBe('hindered')
  expect(whyWaits({ ...waiting, hasSender: false }, AT).why).toBe('no sender')
  expect(whyWaits({ ...waiting, server }, AT)).toEqual({ why: 'server', ...server })
  expect(whyWaits(waiting, AT)).toEqual({
    ...{ why: 'refused for now', says: '451 greylisted', nextTryAt: after(30) },
  })
  expect(whyWaits({ ...waiting, dueAt: AT }, AT).why).toBe('its turn')
})

describe('RFC 3464: a delivery status notification', () => {
  // The shape of RFC 3464, appendix E.1, with reserved names.
  const NOTIFICATION = [
    'From: postmaster@mail.example',
    'Content-Type: multipart/report; report-type=delivery-status; boundary="b"',
    '',
    '--b',
    'Content-Type: message/delivery-status',
    '',
    'Reporting-MTA: dns; mail.example',
    '',
    'Final-Recipient: rfc822; nobody@customers.example',
    'Action: failed',
    'Status: 5.1.1 (bad destination mailbox address)',
    'Diagnostic-Code: smtp; 550 5.1.1 no such user',
    ' of that name',
    '',
    '--b',
    'Message-ID: <0123456789abcdef0123456789abcdef@wrenfold.example>',
    '--b--',
  ].join('\r\n')
  test('its action, status, diagnostic and our Message-ID', () => {
    expect(readBounce(NOTIFICATION)).toEqual({
      messageIds: ['<0123456789abcdef0123456789abcdef@wrenfold.example>'],
      ...{ action: 'failed', status: '5.1.1', diagnostic: '550 5.1.1 no such user of that name' },
    })
  })
  test('a delay is no failure, and free text tells nothing', () => {
    expect(readBounce(NOTIFICATION.replace('Action: failed', 'Action: delayed')).action).toBe('delayed')
    expect(readBounce('Sorry, it did not work out. 550')).toEqual({ messageIds: [] })
  })
})
