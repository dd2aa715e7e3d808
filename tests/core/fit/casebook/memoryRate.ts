import type { Board, MemoryKit, Processor } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, cpu, kit, machine } from './parts.ts'
import { CITED } from './sources.ts'

const c10i5 = cpu('10th (Comet Lake)', 'i5')
const c10i7 = cpu('10th (Comet Lake)', 'i7')
const c12 = cpu('12th (Alder Lake)', 'i5')
const c13 = (of: string) => cpu('13th (Raptor Lake)', of)
const c14 = (of: string) => cpu('14th (Raptor Lake Refresh)', of)
const d4 = (rate: number) => kit('DDR4', 2, 16, rate)
const d5 = (rate: number) => kit('DDR5', 2, 16, rate)
const h610d5 = board('H610', {
  memoryType: 'DDR5',
  memoryRateMtsMax: 5600,
  memoryMaxGB: 96,
  memoryPerSlotMaxGB: 48,
})

/** The kit in place of one small old kit of the same type. */
function swapIn(main: Board, processor: Processor, next: MemoryKit): Pick<Draft, 'has' | 'add' | 'out'> {
  const old = kit(next.memoryType ?? 'DDR4', 2, 4, 1333, { id: 'MEM old' })
  return { has: machine(main, processor, old), add: [next], out: [old.id] }
}

const locked = { source: CITED.rates, verdict: 'fits slower' } as const

export const memoryRate = chapter('memory', 'memory', [
  {
    ...swapIn(board('H410'), c10i5, d4(3200)),
    id: 'rate-h410-i5',
    says: 'H410 allows no memory overclocking and a 10th generation i5 drives 2666.',
    ...locked,
    reason: 'kit 3200, processor 2666, locked chipset',
    values: { runsMts: 2666 },
  },
  {
    ...swapIn(board('H410'), c10i7, d4(3200)),
    id: 'rate-h410-i7',
    says: 'The same kit on the same board runs at 2933 with an i7.',
    tricky: true,
    ...locked,
    reason: 'kit 3200, processor 2933, locked chipset',
    values: { runsMts: 2933 },
  },
  {
    ...swapIn(board('H410'), c10i7, d4(2933)),
    id: 'rate-h410-i7-2933',
    says: 'A kit of exactly the rate of the processor runs as rated.',
    source: CITED.rates,
    verdict: 'fits',
    reason: 'kit 2933, processor 2933',
    values: { runsMts: 2933 },
  },
  {
    ...swapIn(board('H410', { memoryRateMtsMax: 2666 }), c10i7, d4(2933)),
    id: 'rate-page-below-processor',
    says: 'The board page stops at 2666 where the processor would drive 2933.',
    tricky: true,
    ...locked,
    reason: 'board page 2666 under processor 2933',
    values: { runsMts: 2666 },
  },
  {
    ...swapIn(board('H470', { memoryRateMtsMax: 3200 }), c10i5, d4(3200)),
    id: 'rate-page-above-processor-locked',
    says: 'A page that lists 3200 for the 11th generation gives a 10th generation i5 no more than 2666.',
    tricky: true,
    ...locked,
    reason: 'processor 2666, locked chipset',
    values: { runsMts: 2666 },
  },
  {
    ...swapIn(board('B560'), c10i5, d4(3200)),
    id: 'rate-b560-i5',
    says: 'B560 is a B chipset that allows memory overclocking: the i5 may run the kit at 3200.',
    tricky: true,
    source: CITED.memOc,
    verdict: 'fits',
    reason: 'profile 3200 over the rated 2666, allowed by the chipset',
    values: { runsMts: 3200 },
  },
  {
    ...swapIn(board('B560', { memoryRateMtsMax: 3200 }), c10i5, d4(3600)),
    id: 'rate-b560-page-3200',
    says: 'An open chipset still ends at the page of the board.',
    source: CITED.memOc,
    verdict: 'fits slower',
    reason: 'kit 3600, board page 3200',
    values: { runsMts: 3200 },
  },
  {
    ...swapIn(board('H510'), cpu('11th (Rocket Lake)', 'i5'), d4(3600)),
    id: 'rate-h510-11th',
    says: 'H510 is locked, and the 11th generation drives 3200.',
    ...locked,
    reason: 'kit 3600, processor 3200',
    values: { runsMts: 3200 },
  },
  {
    ...swapIn(board('B360'), cpu('8th (Coffee Lake)', 'i3'), d4(2666)),
    id: 'rate-b360-i3',
    says: 'An 8th generation i3 drives 2400 where the i5 drives 2666.',
    tricky: true,
    ...locked,
    reason: 'kit 2666, processor class 2400',
    values: { runsMts: 2400 },
  },
  {
    ...swapIn(board('H110'), cpu('7th (Kaby Lake)', 'Celeron'), d4(2400)),
    id: 'rate-h110-celeron',
    says: 'A 7th generation Celeron drives 2133, its larger brothers 2400.',
    tricky: true,
    ...locked,
    reason: 'kit 2400, processor class 2133',
    values: { runsMts: 2133 },
  },
  {
    ...swapIn(board('H110'), cpu('7th (Kaby Lake)', 'i5'), d4(2400)),
    id: 'rate-h110-i5',
    says: 'The i5 of the same generation runs the same kit as rated.',
    source: CITED.rates,
    verdict: 'fits',
    reason: 'kit 2400, processor class 2400',
    values: { runsMts: 2400 },
  },
  {
    ...swapIn(board('Z370', { memoryPerSlotMaxGB: 32 }), cpu('8th (Coffee Lake)', 'i5'), d4(3200)),
    id: 'rate-z370-i5',
    says: 'Z370 is open: a 3200 kit may run at 3200 above the rated 2666.',
    source: CITED.memOc,
    verdict: 'fits',
    reason: 'profile 3200, allowed by the chipset',
    values: { runsMts: 3200 },
  },
  {
    ...swapIn(board('A320'), cpu('Ryzen 2000 (Zen+)', 'Ryzen 5'), d4(3200)),
    id: 'rate-a320-open',
    says: 'The cheapest AM4 chipset is locked for processors and open for memory.',
    tricky: true,
    source: CITED.memOc,
    verdict: 'fits',
    reason: 'profile 3200 over the rated 2933, allowed by the chipset and listed by the board',
    values: { runsMts: 3200 },
  },
  {
    ...swapIn(h610d5, c12, d5(5600)),
    id: 'rate-h610-12th-ddr5',
    says: 'H610 is locked and a 12th generation processor drives two DDR5 modules at 4800.',
    ...locked,
    reason: 'kit 5600, processor 4800',
    values: { runsMts: 4800 },
  },
  {
    ...swapIn(board('B660'), c12, d5(5600)),
    id: 'rate-b660-12th-ddr5',
    says: 'B660 is open for memory.',
    source: CITED.memOc,
    verdict: 'fits',
    reason: 'profile 5600 over the rated 4800, allowed by the chipset',
    values: { runsMts: 5600 },
  },
  {
    ...swapIn(h610d5, c14('i5-14400'), d5(5600)),
    id: 'rate-h610-14400',
    says: 'An i5-14400 drives 4800.',
    ...locked,
    reason: 'kit 5600, processor class 4800',
    values: { runsMts: 4800 },
  },
  {
    ...swapIn(h610d5, c14('i5-14600'), d5(5600)),
    id: 'rate-h610-14600',
    says: 'An i5-14600 without K drives 5600: the letter does not decide here.',
    tricky: true,
    source: CITED.rates,
    verdict: 'fits',
    reason: 'kit 5600, processor class 5600',
    values: { runsMts: 5600 },
  },
  {
    ...swapIn(h610d5, c13('i5-13600 without K'), d5(5600)),
    id: 'rate-h610-13600',
    says: 'For the i5-13600 without K two published figures exist: 4800 and 5600.',
    tricky: true,
    source: CITED.rates,
    verdict: "can't tell",
    reason: 'the rate of the processor class is in doubt',
    needs: ['controllerRateMts'],
    note: 'It works either way; only the rate is open.',
  },
  {
    ...swapIn(board('H610'), c12, d4(3600)),
    id: 'rate-h610-ddr4',
    says: 'With DDR4 the 12th generation drives 3200, locked on H610.',
    ...locked,
    reason: 'kit 3600, processor 3200',
    values: { runsMts: 3200 },
  },
])
