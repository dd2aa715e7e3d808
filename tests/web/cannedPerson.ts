import type { AnswerInputs } from '../../src/core/answer.ts'
import { failed, ok, type Result } from '../../src/problem.ts'
import type { Kept } from '../../src/uses/customerKept.ts'
import { type CustomerRecord, NO_CUSTOMER } from '../../src/uses/customerRecord.ts'
import type { CustomerUses } from '../../src/uses/customerViews.ts'
import { NO_LINK } from '../../src/uses/ownerLinks.ts'
import type { OwnerPerson } from '../../src/uses/ownerPerson.ts'
import type { OwnerPersonUses } from '../../src/web/webUses.ts'
import { consentWording } from '../../src/words/consent.ts'

const AT = '2026-05-02T15:00:00.000Z'

export const cannedKept: Kept = {
  name: 'Imre Vale',
  gone: { particulars: 2, questions: 2, messages: 1, photos: 1, readings: 1, notes: 3, links: 2 },
  stays: { sales: 1, jobs: 1, reports: 1, answers: 2, consents: 2, machines: 1 },
  openJobs: [],
}

export const personWithout: OwnerPerson = { ...consentWording('offers', 'Test Shop'), hasAddress: true }

export const personWith: OwnerPerson = {
  ...personWithout,
  consent: { standing: 'given', at: AT, wording: personWithout.wording, language: 'en' },
}

export const cannedRecord = (from: AnswerInputs): CustomerRecord => {
  const machineTag = from.machine.tag
  const said = { kind: 'offers', at: AT, wording: personWithout.wording, language: 'en' } as const
  return {
    customer: {
      id: 'C-7',
      name: 'Imre Vale',
      email: 'imre@example.org',
      phone: '555-0100',
      note: 'rings twice',
    },
    consents: [
      { ...said, standing: 'given', source: 'owner page' },
      { ...said, standing: 'withdrawn', source: 'unsubscribe', at: '2026-05-20T15:00:00.000Z' },
    ],
    machines: [{ tag: machineTag, soldAt: '2025-03-01T15:00:00.000Z', note: 'the small one' }],
    questions: [
      {
        ...{ id: 'Q-0007', machineTag, askedAt: AT, words: from.question.words, state: 'answered' },
        ...{ titles: [], wishes: [], told: [{ at: AT, text: 'A card, for instance.' }] },
        written: [{ at: AT, text: 'Not told yet.' }],
      },
    ],
    jobs: [
      {
        ...{ id: 'J-0001', machineTag, state: 'done', agreedAt: AT, agreedMinor: 12_300 },
        ...{ settledAt: AT, settledMinor: 12_300, note: 'paid in cash' },
      },
    ],
    reports: [
      { machineTag, at: AT, titleId: 'title-a', title: 'Saffron Keep', settingId: 'set-a', averageFps: 61 },
    ],
    requests: [{ machineTag, limitKey: 'coolerRoomMm', state: 'open', askedAt: AT }],
    photos: [{ id: 1, machineTag, at: AT, takenBy: 'owner', mediaType: 'image/png' }],
    readings: [
      { machineTag, at: AT },
      { machineTag, at: AT, takenAt: AT },
    ],
    sheets: [{ machineTag, at: AT, subject: 'Your machine', message: 'Have fun with it.' }],
    mails: [
      { machineTag, kind: 'answer', state: 'sent', at: AT, subject: 'Your question', text: 'A card fits.' },
    ],
    offers: [
      { machineTag, roundId: 'O-1', standing: 'held', askedAt: AT, saidAt: AT, dueMinor: 12_900 },
      { machineTag, roundId: 'O-2', standing: 'left out', note: 'Just bought one.' },
    ],
    links: [
      { machineTag, createdAt: AT, expiresAt: '2026-08-01T15:00:00.000Z' },
      { machineTag, createdAt: AT, expiresAt: '2026-08-01T15:00:00.000Z', revokedAt: AT },
    ],
  }
}

/** What the shop's pages of customers ask. */
export const cannedCustomerUses = (from: AnswerInputs, calls: [string, ...unknown[]][]): CustomerUses => {
  const known = <T>(id: string, value: T): Result<T> => (id === 'C-7' ? ok(value) : failed(NO_CUSTOMER))
  const customerId = 'C-7'
  return {
    customers: async () => ({
      lines: [
        { id: 'C-7', name: 'Imre Vale', machines: [from.machine.tag], offers: true },
        { id: 'C-8', name: 'Petra Quill', machines: [], offers: false, eraseAskedAt: AT },
        { id: 'C-9', name: '(erased) C-9', machines: ['T-0009'], offers: false, erasedAt: AT },
      ],
      total: 3,
    }),
    keepReminders: async () => ({
      months: 36,
      due: [
        { id: 'C-8', name: 'Petra Quill', lastAt: AT },
        { id: 'C-10', name: 'Somebody Else' },
      ],
    }),
    remindAfter: async (months) => {
      calls.push(['remindAfter', months])
    },
    customer: async (id) =>
      known(id, {
        record: cannedRecord(from),
        ...consentWording('offers', 'Test Shop'),
        offers: {
          ...{ customerId, kind: 'offers', standing: 'given', at: AT, source: 'mail' },
          ...{ wording: personWith.wording, language: 'en' },
        },
      }),
    exportCustomer: async (id) => known(id, { exportedAt: AT, currency: 'USD', ...cannedRecord(from) }),
    setCustomerLanguage: async (id, language) => {
      calls.push(['setCustomerLanguage', id, language])
      return ok({ id })
    },
    recordConsent: async (id, said) => {
      calls.push(['recordConsent', id, said])
      const next = 'Write the words that were agreed to.'
      return said.wording === ''
        ? failed({ code: 'missing', field: 'wording', next })
        : known(id, { customerId })
    },
    recordObjection: async (id, source) => {
      calls.push(['recordObjection', id, source])
      return known(id, { customerId })
    },
    customerKept: async (id) => known(id, cannedKept),
    eraseCustomer: async (id, sure) => {
      calls.push(['eraseCustomer', id, sure])
      const next = 'Tick the box to say that you are sure.'
      return sure ? known(id, { customerId }) : failed({ code: 'missing', field: 'sure', next })
    },
    takeBackErase: async (id) => {
      calls.push(['takeBackErase', id])
      return known(id, { id })
    },
    takeBackParting: async (tag) => {
      calls.push(['takeBackParting', tag])
      return ok({ tag })
    },
  }
}

/** What the page of one owner asks about that owner. */
export const cannedPersonUses = (
  from: AnswerInputs,
  calls: [string, ...unknown[]][],
  holds: (token: string) => boolean,
): OwnerPersonUses => {
  const behind = <T>(token: string, value: T): Result<T> => (holds(token) ? ok(value) : failed(NO_LINK))
  const customerId = 'C-7'
  const tag = from.machine.tag
  return {
    ownerConsents: async (token, said) => {
      calls.push(['ownerConsents', said])
      const next = 'Tick the box if you want mails.'
      return said.yes ? behind(token, { customerId }) : failed({ code: 'missing', field: 'consent', next })
    },
    ownerWithdraws: async (token) => {
      calls.push(['ownerWithdraws'])
      return behind(token, { customerId })
    },
    ownerParted: async () => failed(NO_LINK),
    ownerParts: async (token) => {
      calls.push(['ownerParts'])
      return behind(token, { tag })
    },
    ownerTakesPartingBack: async (token) => {
      calls.push(['ownerTakesPartingBack'])
      return behind(token, { tag })
    },
    ownerErase: async (token) => behind(token, cannedKept),
    ownerAsksErase: async (token, sure) => {
      calls.push(['ownerAsksErase', sure])
      const next = 'Tick the box to say that you are sure.'
      return sure ? behind(token, { customerId }) : failed({ code: 'missing', field: 'sure', next })
    },
    ownerTakesEraseBack: async (token) => {
      calls.push(['ownerTakesEraseBack'])
      return behind(token, { customerId })
    },
    ownerReads: async (token, language) => {
      calls.push(['ownerReads', language])
      return behind(token, { customerId })
    },
    ownerRecord: async (token) => behind(token, cannedRecord(from)),
  }
}
