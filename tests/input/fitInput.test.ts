import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readFitInput } from '../../src/input/fitInput.ts'

/** Invented parts. */
const board = { kind: 'board', id: 'B', name: 'Invented board', memorySlots: 2 }
const card = {
  kind: 'card',
  id: 'C',
  name: 'Invented card',
  lengthMm: 267,
  plugs: { pin6: 0, pin8: 1, pin16: 0 },
}
const claim = { key: 'cardRoomMm', value: 290, source: 'measured' }
const good = { machine: { tag: 'M-0001', parts: [board], claims: [claim] }, change: { add: [card] } }

test('a machine, a change and the policy of a shop that says nothing', () => {
  expect(readFitInput(JSON.stringify(good))).toEqual({
    ok: true,
    value: {
      machine: { tag: 'M-0001', build: { board, memory: [], drives: [], fans: [] }, claims: [claim] },
      change: { add: [card], removeIds: [], work: [] },
      // The defaults of shop.csv: 80 %, 50 W, 5 %, 400 days, 14 days, 60 days, no tax.
      policy: {
        currency: 'USD',
        supplyShare: 0.8,
        restOfMachineW: 50,
        supplyFullYears: 5,
        supplyLossPctPerYear: 2,
        coolingMarginC: 5,
        smallestGainPct: 5,
        runWindowDays: 400,
        priceValidDays: 14,
        priceStaleDays: 60,
        salesTaxBp: 0,
        taxIncluded: false,
        taxOnWork: false,
        tradeInsLowerTax: false,
      },
    },
  })
})

test('given figures of the policy replace the defaults', () => {
  const read = readFitInput(JSON.stringify({ ...good, policy: { supplyShare: 0.7 } }))
  expect(read.ok && read.value.policy).toMatchObject({ supplyShare: 0.7, restOfMachineW: 50 })
})

const withPart = (part: object) => ({ ...good, change: { add: [part] } })
const withClaim = (c: object) => ({ ...good, machine: { parts: [], claims: [c] } })

test.each([
  [withPart({ ...card, lengthMm: '267' }), 'change.add[0].lengthMm', 'not allowed', 'Write a number.'],
  [withPart({ ...card, lengthMm: -1 }), 'change.add[0].lengthMm', 'not allowed', 'Write a number above 0.'],
  [
    withPart({ ...card, lenghtMm: 267 }),
    'change.add[0].lenghtMm',
    'unknown name',
    'There is no such field here.',
  ],
  [
    withPart({ ...card, plugs: { pin6: 0, pin8: 1.5, pin16: 0 } }),
    'change.add[0].plugs.pin8',
    'not allowed',
    'Write a whole number.',
  ],
  [
    withPart({ ...card, plugs: { pin6: 0, pin8: 1 } }),
    'change.add[0].plugs.pin16',
    'missing',
    'Add this field: a number.',
  ],
  [withPart({ ...card, kind: 'graphics' }), 'change.add[0].kind', 'unknown name', 'processor, board, memory'],
  [withPart({ kind: 'card', id: 'C' }), 'change.add[0].name', 'missing', 'a text in quotation marks'],
  [
    withPart({ ...board, form: 'ATX!' }),
    'change.add[0].form',
    'unknown name',
    'E-ATX, ATX, microATX, Mini-ITX',
  ],
  [withClaim({ ...claim, value: 'wide' }), 'machine.claims[0].value', 'not allowed', 'number'],
  [withClaim({ ...claim, key: 'cardRoom' }), 'machine.claims[0].key', 'unknown name', 'cardRoomMm'],
  [{ ...good, policy: { supplyShare: 80 } }, 'policy.supplyShare', 'not allowed', 'up to 1'],
  [{ machine: good.machine }, 'change', 'missing', 'an object in { }'],
  [{ ...good, extra: 1 }, 'extra', 'unknown name', 'no such field'],
  [[], 'input', 'not allowed', 'an object in { }'],
  [null, 'input', 'not allowed', 'an object in { }'],
])('%j names %s', (json, field, code, says) => {
  const read = readFitInput(JSON.stringify(json))
  expect(read).toMatchObject({ ok: false, problems: [{ field, code }] })
  expect(!read.ok && read.problems[0]?.next).toContain(says)
  expect(!read.ok && read.problems).toHaveLength(1)
})

test('every wrong field has a message of its own', () => {
  const read = readFitInput(JSON.stringify(withPart({ ...card, lengthMm: 'x', pcieGen: 3.5, name: '' })))
  expect(!read.ok && read.problems.map((p) => p.field).sort()).toEqual([
    'change.add[0].lengthMm',
    'change.add[0].name',
    'change.add[0].pcieGen',
  ])
})

test('text that is no JSON says so', () => {
  expect(readFitInput('{ "machine": ')).toMatchObject({
    ok: false,
    problems: [{ code: 'unreadable', field: 'input' }],
  })
})

test('law: whatever JSON comes, an answer or at least one problem with a sentence', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.json(),
        fc.string(),
        fc.jsonValue().map((v) => JSON.stringify({ ...good, machine: v })),
      ),
      (text) => {
        const read = readFitInput(text)
        expect(read.ok || read.problems.every((p) => /[.)}]$/.test(p.next) && p.field !== '')).toBe(true)
        expect(read.ok || read.problems.length > 0).toBe(true)
      },
    ),
  )
})
