import { expect, test } from 'vitest'
import { RULE_IDS } from '../../../src/core/fit/finding.ts'
import { judge, rule } from '../../../src/core/fit/rule.ts'
import { RULES, RULES_VERSION } from '../../../src/core/fit/rules.ts'
import { spec } from '../../../src/core/fit/spec.ts'
import { card, change, limits, machine, says, situation } from './bench.ts'

const newCard = { ...card, id: 'CARD-NEW', name: 'New card', lengthMm: 260 }
const into = situation(change([newCard]))

/** A rule that fails the test when the engine lets an unknown through to it. */
const probe = (values: () => Record<string, number | undefined>) =>
  rule({
    id: 'graphics.length',
    source: { kind: 'common practice', text: 'a probe for this test' },
    reads: ['cardRoomMm'],
    verdicts: ['fits', 'does not fit'],
    applies: () => true,
    about: ({ after }) => after.card,
    specs: ({ after }) => ({ cardMm: spec(after.card, 'card', 'lengthMm') }),
    values,
    verdict: (worked) => {
      if (Object.values(worked).some((v) => v === undefined || !Number.isFinite(v)))
        throw new Error('reached')
      return 'fits'
    },
  })

test('RULE_IDS and the list of rules name the same rules, each once', () => {
  expect(RULES.map((r) => r.id).sort()).toEqual([...RULE_IDS].sort())
  expect(new Set(RULE_IDS).size).toBe(RULE_IDS.length)
  expect(RULES_VERSION).toMatch(/^\d+$/)
})

test('each rule names a source, and no rule claims the engine’s own verdict', () => {
  for (const r of RULES) {
    expect(r.source.text.length, r.id).toBeGreaterThan(10)
    expect(r.verdicts, r.id).not.toContain("can't tell")
    expect(r.verdicts, r.id).toContain('fits')
  }
})

test('a missing limit gives "can\'t tell" that names it, and keeps what is known', () => {
  const f = says('graphics.length', { add: [newCard], limits: limits({}, ['cardRoomMm']) })
  expect(f).toEqual({
    ...{ rule: 'graphics.length', verdict: "can't tell", partId: 'CARD-NEW', values: { cardMm: 260 } },
    ...{ missing: [{ limit: 'cardRoomMm' }], needs: [], cautions: [], source: f?.source },
  })
})

test('a doubtful limit gives "can\'t tell" with the doubt', () => {
  const f = says('graphics.length', {
    add: [newCard],
    limits: limits({}, ['cardRoomMm'], 'two figures in print'),
  })
  expect(f).toMatchObject({
    verdict: "can't tell",
    missing: [{ limit: 'cardRoomMm', doubt: 'two figures in print' }],
  })
})

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -1])(
  'a limit of %s is not known',
  (roomMm) => {
    const f = says('graphics.length', { add: [newCard], limits: limits({ cardRoomMm: roomMm }) })
    expect(f).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'cardRoomMm' }] })
  },
)

test.each([undefined, Number.NaN, Number.POSITIVE_INFINITY, -260, 0])(
  'a length of %s is not known',
  (lengthMm) => {
    const f = says('graphics.length', { add: [{ ...newCard, lengthMm }] })
    const missing = [{ spec: 'lengthMm', partId: 'CARD-NEW', partName: 'New card' }]
    expect(f).toMatchObject({ verdict: "can't tell", values: {}, missing })
  },
)

test('plugs with one count that is no number are not known', () => {
  const plugs = { pin6: 0, pin8: Number.NaN, pin16: 0 }
  expect(says('power.plugs', { add: [{ ...newCard, plugs }] })).toMatchObject({
    missing: [{ spec: 'plugs' }],
  })
  expect(says('power.plugs', { add: [newCard], limits: limits({ supplyPlugs: plugs }) })).toMatchObject({
    missing: [{ limit: 'supplyPlugs' }],
  })
})

test('a part that is not on record is asked for by its kind', () => {
  const { processor: _, ...before } = machine
  expect(says('power.load', { add: [newCard], before })).toMatchObject({
    verdict: "can't tell",
    missing: [{ spec: 'processor', partId: 'processor', partName: 'processor' }],
  })
})

test('everything that is missing is named at once', () => {
  const f = says('graphics.link', {
    add: [{ ...newCard, pcieGen: undefined }],
    limits: limits({}, ['slotLanes', 'processorPcieGen']),
  })
  expect(f?.missing).toEqual([
    { spec: 'pcieGen', partId: 'CARD-NEW', partName: 'New card' },
    { limit: 'slotLanes' },
    { limit: 'processorPcieGen' },
  ])
})

test.each([undefined, Number.NaN, Number.POSITIVE_INFINITY])(
  'a worked value of %s never reaches the verdict',
  (value) => {
    const f = judge(
      probe(() => ({ roomLeftMm: value })),
      into,
      limits(),
    )
    expect(f).toMatchObject({ verdict: "can't tell", missing: [{ spec: 'roomLeftMm', partId: 'CARD-NEW' }] })
    expect(
      judge(
        probe(() => ({ roomLeftMm: 3 })),
        into,
        limits(),
      ),
    ).toMatchObject({ verdict: 'fits' })
  },
)

test('a rule is not asked for values while something is missing', () => {
  let asked = 0
  const counting = probe(() => ({ asked: ++asked }))
  judge(counting, into, limits({}, ['cardRoomMm']))
  judge(counting, situation(change([{ ...newCard, lengthMm: undefined }])), limits())
  expect(asked).toBe(0)
  judge(counting, into, limits())
  expect(asked).toBe(1)
})

test('a shop policy that is no number gives "can\'t tell"', () => {
  const shop = { ...into.policy, supplyShare: Number.NaN }
  expect(says('power.load', { add: [newCard], policy: shop })).toMatchObject({
    verdict: "can't tell",
    missing: [{ spec: 'supplyShare' }],
  })
})

test('the types refuse a rule that uses a limit it does not list, or gives a verdict it does not declare', () => {
  const base = {
    id: 'graphics.length',
    source: { kind: 'common practice', text: 'types only' },
    reads: ['cardRoomMm'],
    verdicts: ['fits'],
    applies: () => true,
    specs: () => ({}),
  } as const
  // @ts-expect-error coolerRoomMm is not under `reads`
  rule({ ...base, values: (_, l) => ({ roomMm: l.coolerRoomMm }), verdict: () => 'fits' })
  // @ts-expect-error `does not fit` is not under `verdicts`
  rule({ ...base, values: (_, l) => ({ roomMm: l.cardRoomMm }), verdict: () => 'does not fit' })
  const good = rule({ ...base, values: (_, l) => ({ roomMm: l.cardRoomMm }), verdict: () => 'fits' })
  expect(judge(good, into, limits())).toMatchObject({ verdict: 'fits', values: { roomMm: 300 } })
})
