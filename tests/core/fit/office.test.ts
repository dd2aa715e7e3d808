import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import type { Finding } from '../../../src/core/fit/finding.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import type { Claim, LimitKey, LimitValues } from '../../../src/core/limits/limit.ts'
import { claimsAfter, limitsOf } from '../../../src/core/limits/resolve.ts'
import { BRAND_LIMITS } from '../../../src/core/limits/state.ts'
import type { Part } from '../../../src/core/part.ts'
import { rankOfVerdict, worstVerdict } from '../../../src/core/verdict.ts'
import { board as benchBoard, limits, policy, says } from './bench.ts'
import { board, card, chassis, cpu, machine, plugs, supply } from './casebook/parts.ts'

// Brand-name machines: common practice (repair handbooks: verify plugs before supply or board are changed); slot power
// from PCI Express CEM 1.1. Parts are invented.

const i5 = cpu('7th (Kaby Lake)', 'i5')
const brandBoard = board('B250', { id: 'BOARD brand' })
const parts = machine(brandBoard, i5)
const claim = <K extends LimitKey>(key: K, value: LimitValues[K]): Claim =>
  ({ key, value, source: 'measured' }) as Claim
const BRAND = [claim('brandBoard', 'yes'), claim('brandCase', 'yes')]

const judged = (add: readonly Part[], claims: readonly Claim[], had: readonly Part[] = parts) =>
  judgeChange({ tag: 'M-1', build: buildOf(had), claims }, { add, removeIds: [], work: [] }, policy)
const shortly = (findings: readonly Finding[]) =>
  findings.filter((f) => /^office/.test(f.rule)).map((f) => `${f.rule}: ${f.verdict}`)

const newSupply = supply('new')
const newBoard = board('B250', { id: 'BOARD new' })
const newCase = chassis('new')
const slotFed = card('slot fed', { boardPowerW: 75, plugs: plugs(0, 0, 0) })

describe('a machine of parts that are sold one by one', () => {
  test.each([
    ['a supply', newSupply],
    ['a board', newBoard],
    ['a case', newCase],
    ['a card', card('new')],
    ['a processor', cpu('7th (Kaby Lake)', 'i7')],
  ])('%s: no office rule has anything to say', (_, part) => {
    expect(shortly(judged([part], []).findings)).toEqual([])
  })
})

test('somebody said that it is no brand-name machine: no office rule has anything to say', () => {
  const plain = [claim('brandBoard', 'no'), claim('brandCase', 'no')]
  for (const part of [newSupply, newBoard, newCase, card('new')])
    expect(shortly(judged([part], plain).findings)).toEqual([])
})

describe('a brand-name machine that nobody looked into', () => {
  test.each([
    ['a supply', newSupply, ["office.supplyPlug: can't tell"]],
    ['a board', newBoard, ["office.boardPlug: can't tell", "office.mounting: can't tell"]],
    ['a case', newCase, ["office.mounting: can't tell"]],
    ['a card', card('new'), ["office.slotPower: can't tell", "office.firmwareList: can't tell"]],
    ['a processor', cpu('7th (Kaby Lake)', 'i7'), ["office.firmwareList: can't tell"]],
  ] as const)('%s: %j', (_, part, says) => {
    expect(shortly(judged([part], BRAND).findings)).toEqual(says)
  })

  test('what is missing says that somebody has to look', () => {
    const [finding] = judged([newSupply], BRAND).findings.filter((f) => f.rule === 'office.supplyPlug')
    expect(finding?.missing).toEqual([
      {
        limit: 'boardSupplyPlug',
        doubt: 'parts of brand-name machines may be of their own kind: look before anything is changed',
      },
    ])
  })

  test('memory and drives are the plain case', () => {
    expect(shortly(judged([{ kind: 'drive', id: 'D2', name: 'invented drive' }], BRAND).findings)).toEqual([])
  })

  test('a new board with a new supply settles the plug, and not the posts', () => {
    expect(shortly(judged([newBoard, newSupply], BRAND).findings)).toEqual(["office.mounting: can't tell"])
  })
})

describe('once somebody looked', () => {
  const looked = (...claims: readonly Claim[]) => [...BRAND, ...claims]
  test.each([
    ['ATX 24-pin', 'fits'],
    ['own', 'does not fit'],
  ] as const)('board plug %s: a new supply %s, with the cautions', (plug, verdict) => {
    const { findings } = judged([newSupply], looked(claim('boardSupplyPlug', plug)))
    const finding = findings.find((f) => f.rule === 'office.supplyPlug')
    expect(finding?.verdict).toBe(verdict)
    expect(finding?.cautions).toEqual(['proprietary', 'psu-closed', 'psu-cables', 'defer'])
  })

  test.each([
    ['ATX 24-pin', 'fits', []],
    ['own', 'fits after work', [{ part: 'supply' }]],
  ] as const)('supply plug %s: a new board %s', (plug, verdict, needs) => {
    const { findings } = judged([newBoard], looked(claim('supplyBoardPlug', plug)))
    expect(findings.find((f) => f.rule === 'office.boardPlug')).toMatchObject({ verdict, needs })
  })

  test.each([
    ['standard', newBoard, 'fits'],
    ['own', newBoard, 'does not fit'],
  ] as const)('case mounting %s: a standard board %s', (mounting, part, verdict) => {
    const { findings } = judged([part], looked(claim('caseBoardMounting', mounting)))
    expect(findings.find((f) => f.rule === 'office.mounting')?.verdict).toBe(verdict)
  })

  test.each([
    ['standard', 'fits'],
    ['own', 'does not fit'],
  ] as const)('board shape %s: a standard case %s', (shape, verdict) => {
    const { findings } = judged([newCase], looked(claim('boardShape', shape)))
    expect(findings.find((f) => f.rule === 'office.mounting')?.verdict).toBe(verdict)
  })

  test('two of their own kind: only the maker knows whether they belong together', () => {
    const f = says('office.mounting', {
      add: [{ ...benchBoard, id: 'BRD-NEW' }],
      limits: limits({ boardShape: 'own', caseBoardMounting: 'own' }),
    })
    expect(f).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'caseBoardMounting' }] })
  })

  test.each([
    [76, 'does not fit', 75],
    [75, 'fits', 75],
    [74, 'fits', 75],
    [36, 'does not fit', 35],
    [35, 'fits', 35],
    [34, 'fits', 35],
  ])('a card of %i W without plugs: %s in a slot of %i W', (boardPowerW, verdict, slotW) => {
    const bare = { ...slotFed, boardPowerW }
    const { findings } = judged([bare], looked(claim('slotPowerW', slotW)))
    const finding = findings.find((f) => f.rule === 'office.slotPower')
    expect(finding?.verdict).toBe(verdict)
    expect(finding?.values).toMatchObject({ needSlotW: boardPowerW, slotW })
  })

  test('a card with plugs may still draw 75 W from the slot', () => {
    const plugged = card('plugged', { boardPowerW: 150, plugs: plugs(0, 1, 0) })
    const slot = (slotW: number) =>
      judged([plugged], looked(claim('slotPowerW', slotW))).findings.find(
        (f) => f.rule === 'office.slotPower',
      )
    expect([slot(74)?.verdict, slot(75)?.verdict]).toEqual(['does not fit', 'fits'])
    expect(slot(74)?.values).toMatchObject({ needSlotW: 75 })
  })

  test.each([
    ['no', card('new'), 'fits'],
    ['yes', card('new'), "can't tell"],
    ['yes', cpu('7th (Kaby Lake)', 'i7'), "can't tell"],
  ] as const)('firmware with a list: %s, %#: %s', (list, part, verdict) => {
    const { findings } = judged([part], looked(claim('firmwareAllowList', list)))
    expect(findings.find((f) => f.rule === 'office.firmwareList')?.verdict).toBe(verdict)
  })

  test('a processor that the maker lists is on the list; a card beside it is not', () => {
    const listed = machine({ ...brandBoard, firmwareByGeneration: { '7th (Kaby Lake)': '1.10' } }, i5)
    const claims = looked(claim('firmwareAllowList', 'yes'))
    const i7 = cpu('7th (Kaby Lake)', 'i7')
    const of = (add: readonly Part[]) =>
      judged(add, claims, listed).findings.find((f) => f.rule === 'office.firmwareList')?.verdict
    expect([of([i7]), of([i7, card('new')])]).toEqual(['fits', "can't tell"])
  })

  test.each([
    [179, 'fits'],
    [180, 'fits'],
    [181, 'does not fit'],
  ])('a supply of %i mm in 180 mm: %s', (lengthMm, verdict) => {
    const { findings } = judged([supply('long', { lengthMm })], [claim('supplyRoomMm', 180)])
    expect(findings.find((f) => f.rule === 'case.supplyDepth')).toMatchObject({
      verdict,
      values: { overMm: Math.max(0, lengthMm - 180) },
    })
  })

  test.each([
    ['standard', 'fits'],
    ['own', 'does not fit'],
  ] as const)('supply opening %s: a standard supply %s', (mounting, verdict) => {
    const { findings } = judged([newSupply], looked(claim('caseSupplyMounting', mounting)))
    expect(findings.find((f) => f.rule === 'case.supply')?.verdict).toBe(verdict)
  })
})

describe('limits of brand-name machines', () => {
  test('a claim ends with the part it was made about', () => {
    const stored = Object.keys(BRAND_LIMITS).map((key) => claim(key as LimitKey, 'own'))
    const tag = { tag: 'M-1', build: buildOf(parts), claims: stored }
    const left = (part: Part) => claimsAfter(tag, { add: [part], removeIds: [], work: [] }).map((c) => c.key)
    const all = stored.map((c) => c.key)
    const ofBoard = ['brandBoard', 'boardSupplyPlug', 'boardShape', 'slotPowerW', 'firmwareAllowList']
    const ofCase = ['brandCase', 'caseBoardMounting', 'caseSupplyMounting', 'supplyRoomMm']
    expect(left(newBoard)).toEqual(all.filter((key) => !ofBoard.includes(key)))
    expect(left(newCase)).toEqual(all.filter((key) => !ofCase.includes(key)))
    expect(left(newSupply)).toEqual(all.filter((key) => key !== 'supplyBoardPlug'))
    expect(left(card('new'))).toEqual(all)
  })

  test('without a part nothing is derived about it', () => {
    const bare = limitsOf(buildOf([]), BRAND)
    for (const key of ['boardSupplyPlug', 'caseBoardMounting', 'supplyBoardPlug', 'slotPowerW'] as const)
      expect(bare[key]).toEqual({ known: false, claims: [] })
  })

  test('law: looking never makes it worse than not having looked, and not looking never permits more', () => {
    const seen = fc.record({
      boardSupplyPlug: fc.constantFrom('ATX 24-pin', 'own', undefined),
      supplyBoardPlug: fc.constantFrom('ATX 24-pin', 'own', undefined),
      boardShape: fc.constantFrom('standard', 'own', undefined),
      caseBoardMounting: fc.constantFrom('standard', 'own', undefined),
      slotPowerW: fc.constantFrom(25, 75, undefined),
      firmwareAllowList: fc.constantFrom('yes', 'no', undefined),
    })
    const change = fc.subarray([newSupply, newBoard, newCase, slotFed, cpu('7th (Kaby Lake)', 'i7')])
    const claimsOf = (values: Record<string, string | number | undefined>) =>
      Object.entries(values).flatMap(([key, value]) =>
        value === undefined ? [] : [{ key, value, source: 'measured' } as Claim],
      )
    const worst = (add: readonly Part[], claims: readonly Claim[]) =>
      worstVerdict(
        judged(add, claims)
          .findings.filter((f) => f.rule.startsWith('office'))
          .map((f) => f.verdict),
      )
    fc.assert(
      fc.property(seen, change, (values, add) => {
        const all = claimsOf(values)
        for (const left of all) {
          const without = all.filter((c) => c !== left)
          const isOpen = (claims: readonly Claim[]) => rankOfVerdict(worst(add, [...BRAND, ...claims])) < 3
          if (isOpen(without)) expect(isOpen(all), left.key).toBe(true)
        }
      }),
    )
  })
})
