import { bench, describe } from 'vitest'
import { buildOf, type Change, NO_CHANGE } from '../../src/core/build.ts'
import { judgeChange } from '../../src/core/fit/judgeChange.ts'
import type { Machine } from '../../src/core/machine.ts'
import { policy } from '../core/fit/bench.ts'
import { board, card, cpu, fan, firmware, kit, machine, tape } from '../core/fit/casebook/parts.ts'

/** A sold machine with a tape measure and a firmware reading, as most of the shop's are. */
const old = kit('DDR4', 2, 8, 2666)
const sold: Machine = {
  tag: 'M-0001',
  build: buildOf([...machine(board('B460'), cpu('10th (Comet Lake)', 'i5'), old), fan('front'), fan('rear')]),
  claims: [tape(320), firmware('1.20')],
}
const next = card('gen 4 x8', { pcieGen: 4, pcieLanes: 8, lengthMm: 260 })
const changes: Readonly<Record<string, Change>> = {
  'a card and memory': { ...NO_CHANGE, add: [next, kit('DDR4', 2, 16, 3200)], removeIds: [old.id] },
  'a card': { ...NO_CHANGE, add: [next] },
  'a processor': { ...NO_CHANGE, add: [cpu('10th (Comet Lake)', 'i7', { limitPowerW: 224 })] },
}

/** The goal is a median (p50) under 0.05 ms for each on a quiet machine. */
describe('findings for one change', () => {
  for (const [what, change] of Object.entries(changes))
    bench(what, () => void judgeChange(sold, change, policy), { time: 1500, warmupTime: 500 })
})
