import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { laterMark } from '../../../src/core/facts/laterModels.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import type { Claim } from '../../../src/core/limits/limit.ts'
import type { Processor } from '../../../src/core/part.ts'
import { board, change, policy, processor, supply } from './bench.ts'

const ryzen = (name: string, figures: Partial<Processor> = {}): Processor => ({
  ...{ kind: 'processor', id: `CPU ${name}`, name, socket: 'AM5', generation: 'Ryzen 7000 (Zen 4)' },
  ...{ limitPowerW: 88, integratedGraphics: true },
  ...figures,
})
const b650 = {
  ...board,
  ...{ id: 'B650', socket: 'AM5', chipset: 'B650', memoryType: 'DDR5' as const },
}
const seen = (version: string): Claim => ({ key: 'firmware', value: version, source: 'read' })
const firmwareOf = (
  list: Record<string, string> | undefined,
  next: Processor,
  had = ryzen('Ryzen 5 7600'),
) => {
  const fitted = { ...b650, firmwareByGeneration: list }
  const machine = { tag: 'M-1', build: buildOf([fitted, had, supply]), claims: [seen('1.00')] }
  const { findings } = judgeChange(machine, change([next]), policy)
  return findings.find((f) => f.rule === 'processor.firmware')
}

// AMD product pages (launch dates, from memory): Ryzen 7000 in 2022, its X3D models in 2023; 5800X3D in 2022 after the
// Ryzen 5000 of 2020. A board that runs the one may need newer firmware for the other.
describe('models that came after their generation', () => {
  const x3d = ryzen('Ryzen 7 7800X3D')

  test.each([
    ['Ryzen 7 7800X3D', undefined, 'X3D'],
    ['invented', '7800x3d', 'X3D'],
    ['Ryzen 7 7700', undefined, undefined],
  ] as const)('%s, class %s: %s', (name, processorClass, mark) => {
    expect(laterMark(ryzen(name, { processorClass }))).toBe(mark)
  })

  test('the generation runs today and its list names it: nothing is promised for the later model', () => {
    expect(firmwareOf({ 'Ryzen 7000 (Zen 4)': '1.00' }, x3d)).toMatchObject({
      verdict: "can't tell",
      missing: [{ limit: 'firmwareNeeded', doubt: expect.stringContaining('X3D') }],
    })
    expect(firmwareOf(undefined, x3d)).toMatchObject({ verdict: "can't tell" })
  })

  test('a line of its own on the list decides', () => {
    const list = { 'Ryzen 7000 (Zen 4)': '1.00', 'Ryzen 7000 (Zen 4) X3D': '1.20' }
    expect(firmwareOf(list, x3d)).toMatchObject({
      verdict: 'fits after work',
      values: { needFirmware: '1.20' },
    })
  })

  test('its siblings, and a board that runs such a model today, are no question', () => {
    expect(firmwareOf({ 'Ryzen 7000 (Zen 4)': '1.00' }, ryzen('Ryzen 7 7700'))).toBeUndefined()
    expect(firmwareOf(undefined, x3d, ryzen('Ryzen 9 7900X3D'))).toBeUndefined()
  })
})

test('a chipset nobody knows takes the generation that runs in it, and no other', () => {
  const unread = { ...board, chipset: undefined }
  const support = (generation: string | undefined) => {
    const machine = { tag: 'M-1', build: buildOf([unread, processor, supply]), claims: [] }
    const next = { ...processor, id: 'CPU-NEW', generation }
    const { findings } = judgeChange(machine, change([next]), policy)
    return findings.find((f) => f.rule === 'processor.generation')?.verdict
  }
  expect(support(processor.generation)).toBe('fits')
  expect(support('11th (Rocket Lake)')).toBe("can't tell")
})
