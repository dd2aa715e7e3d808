import { expect, test } from 'vitest'
import { asFiguresOf, LIMITS_OF_FIGURES } from '../../src/core/asked/ofPart.ts'
import type { Finding } from '../../src/core/fit/finding.ts'
import type { LimitKey } from '../../src/core/limits/limit.ts'
import { limitsOf } from '../../src/core/limits/resolve.ts'
import type { Part } from '../../src/core/part.ts'

/** One value for each figure that stands in the table (invented). */
const VALUES: Readonly<Record<string, unknown>> = {
  ...{
    ratedW: 650,
    rail12VW: 640,
    plugs: { pin6: 0, pin8: 2, pin16: 0 },
    processorPlug: '8-pin',
    pin16W: 450,
  },
  ...{
    designVersion: 'ATX 2.4',
    cardCables: 2,
    sataPlugs: 4,
    cardRoomMm: 320,
    cardSlots: 3,
    cardBracket: 'full',
  },
  ...{ coolerRoomMm: 160, supplyRoomMm: 180, supplyAndCardMm: 400, bays25: 2, bays35: 1, socket: 'AM4' },
  ...{ chipset: 'B450', memoryType: 'DDR4', memorySlots: 4, slotPcieGen: 3, slotLanes: 16, sataPorts: 4 },
}

const rows = Object.entries(LIMITS_OF_FIGURES).flatMap(([kind, limits]) =>
  Object.entries(limits).map(([limit, field]) => [kind, limit, field] as const),
)

test.each(rows)('of a %s, %s is what its %s says, and is not known without it', (kind, limit, field) => {
  const part = (figures: object) => ({ kind, id: 'P', name: 'P', ...figures }) as Part
  const of = (p: Part) => limitsOf({ memory: [], drives: [], fans: [], [kind]: p }, [])[limit as LimitKey]
  expect(VALUES).toHaveProperty(field)
  expect(of(part({ [field]: VALUES[field] }))).toMatchObject({ known: true, value: VALUES[field] })
  expect(of(part({})).known).toBe(false)
})

test('what a new supply lacks is its own figure; doubts and other limits stay as they are', () => {
  const supply: Part = { kind: 'supply', id: 'in mind', name: '650W ATX' }
  const missing: Finding['missing'] = [
    { limit: 'supplyPlugs' },
    { limit: 'cardRoomMm' },
    { limit: 'supply12VW', doubt: 'two labels' },
    { spec: 'lengthMm', partId: 'C', partName: 'a card' },
  ]
  const finding: Finding = {
    ...{ rule: 'power.plugs', verdict: "can't tell", partId: 'C', values: {}, missing, needs: [] },
    ...{ cautions: [], source: { kind: 'standard', text: '' } },
  }
  expect(asFiguresOf(supply, [finding])[0]?.missing).toEqual([
    { spec: 'plugs', partId: 'in mind', partName: '650W ATX' },
    ...missing.slice(1),
  ])
  const card: Part = { kind: 'card', id: 'C', name: 'a card' }
  expect(asFiguresOf(card, [finding])).toEqual([finding])
})
