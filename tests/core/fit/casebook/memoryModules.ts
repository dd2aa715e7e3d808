import type { Board, MemoryKit, Processor } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, cpu, kit, machine } from './parts.ts'
import { CITED } from './sources.ts'

const c10i5 = cpu('10th (Comet Lake)', 'i5')
const c10i7 = cpu('10th (Comet Lake)', 'i7')
const c13 = (of: string) => cpu('13th (Raptor Lake)', of)
const r5000 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const r7000 = cpu('Ryzen 7000 (Zen 4)', 'Ryzen 5')
const d4 = (rate: number) => kit('DDR4', 2, 16, rate)
const d5 = (rate: number) => kit('DDR5', 2, 16, rate)

/** The kit in place of one small old kit of the same type. */
function swapIn(main: Board, processor: Processor, next: MemoryKit): Pick<Draft, 'has' | 'add' | 'out'> {
  const old = kit(next.memoryType ?? 'DDR4', 2, 4, 1333, { id: 'MEM old' })
  return { has: machine(main, processor, old), add: [next], out: [old.id] }
}

const locked = { source: CITED.rates, verdict: 'fits slower' } as const

export const memoryModules = chapter('memory', 'memory', [
  {
    ...swapIn(board('B650'), r7000, d5(5200)),
    id: 'rate-am5-two',
    says: 'Two modules on AM5 run at the rated 5200.',
    source: CITED.amdRates,
    verdict: 'fits',
    reason: 'kit 5200, processor 5200 with one module a channel',
    values: { runsMts: 5200 },
  },
  {
    ...swapIn(board('B650'), r7000, d5(6000)),
    id: 'rate-am5-expo',
    says: 'A 6000 kit of two may run at 6000, above the rated 5200.',
    source: CITED.memOc,
    verdict: 'fits',
    reason: 'profile 6000, allowed by the chipset and listed by the board',
    values: { runsMts: 6000 },
  },
  {
    ...swapIn(board('B650'), r7000, kit('DDR5', 4, 16, 5200)),
    id: 'rate-am5-four',
    says: 'Four modules on AM5 fall to 3600.',
    tricky: true,
    source: CITED.amdRates,
    verdict: 'fits slower',
    reason: 'two modules a channel: 3600 instead of 5200',
    values: { runsMts: 3600 },
  },
  {
    ...swapIn(board('B650'), r7000, kit('DDR5', 4, 16, 6000)),
    id: 'rate-am5-expo-four',
    says: 'A profile of 6000 is written for this kit of four, and the processor is published for 3600 with it.',
    tricky: true,
    source: CITED.amdRates,
    verdict: 'fits slower',
    reason: 'two modules a channel: 3600 published, far below the profile',
    values: { runsMts: 3600 },
    note: 'Two modules usually reach their profile, four seldom do; the published rate is what can be promised.',
  },
  {
    ...swapIn(board('B850'), cpu('Ryzen 9000 (Zen 5)', 'Ryzen 7'), kit('DDR5', 4, 16, 5600)),
    id: 'rate-am5-9000-four',
    says: 'A Ryzen 9000 drives two modules faster than a 7000 and four no faster.',
    source: CITED.amdRates,
    verdict: 'fits slower',
    reason: 'two modules a channel: 3600 instead of 5600',
    values: { runsMts: 3600 },
  },
  {
    ...swapIn(board('B850'), cpu('Ryzen 9000 (Zen 5)', 'Ryzen 7'), kit('DDR5', 2, 16, 5600)),
    id: 'rate-am5-9000-two',
    says: 'Two modules run at 5600 with a Ryzen 9000, rated and without a profile.',
    source: CITED.amdRates,
    verdict: 'fits',
    reason: 'kit 5600, processor 5600 with one module a channel',
    values: { runsMts: 5600 },
  },
  {
    id: 'rate-am5-second-kit',
    says: 'A second kit of the same model adds memory and takes rate: 3600 after 5200.',
    tricky: true,
    has: machine(board('B650'), r7000, d5(5200)),
    add: [d5(5200)],
    verdict: 'fits slower',
    reason: 'two modules a channel: 3600 instead of 5200',
    values: { runsMts: 3600, totalGB: 64 },
    source: CITED.amdRates,
  },
  {
    id: 'rate-am5-one-kit-out',
    says: 'Taking one of two equal kits out brings the other back to 5200.',
    tricky: true,
    has: machine(board('B650'), r7000, d5(5200), d5(5200)),
    out: [d5(5200).id],
    verdict: 'fits',
    reason: 'one module a channel: 5200',
    values: { runsMts: 5200, totalGB: 32 },
    source: CITED.amdRates,
  },
  {
    ...swapIn(board('B760'), c13('i7'), kit('DDR5', 4, 16, 5600)),
    id: 'rate-lga1700-four-ddr5',
    says: 'For four DDR5 modules on LGA1700 no published rate exists.',
    source: CITED.rates,
    verdict: "can't tell",
    reason: 'about 4000 in the field, nothing published',
    needs: ['controllerRateMts'],
  },
  {
    ...swapIn(board('B550'), r5000, kit('DDR4', 4, 8, 3200)),
    id: 'rate-am4-four',
    says: 'For four modules with a Ryzen 5000 the product page prints no rate.',
    source: CITED.amdRates,
    verdict: "can't tell",
    reason: 'the published 3200 is for one module a channel',
    needs: ['controllerRateMts'],
  },
  {
    ...swapIn(board('B460'), c10i7, kit('DDR4', 4, 8, 2933)),
    id: 'rate-intel-four-ddr4',
    says: 'Four DDR4 modules on LGA1200 run as fast as two.',
    tricky: true,
    source: CITED.rates,
    verdict: 'fits',
    reason: 'the published 2933 holds for any population',
    values: { runsMts: 2933, totalGB: 32 },
  },
  {
    ...swapIn(board('B860'), cpu('Core Ultra 200S (Arrow Lake)', 'Ultra 5'), d5(5600)),
    id: 'rate-lga1851-two',
    says: 'Two plain modules on a four-slot LGA1851 board run at 5600.',
    source: CITED.arrow,
    verdict: 'fits',
    reason: 'kit 5600, processor 5600',
    values: { runsMts: 5600 },
  },
  {
    ...swapIn(board('H81'), cpu('4th (Haswell)', 'i5'), kit('DDR3', 2, 8, 1866)),
    id: 'rate-h81',
    says: 'An 1866 kit runs at 1600 on H81.',
    ...locked,
    reason: 'kit 1866, processor 1600',
    values: { runsMts: 1600 },
  },
  {
    ...swapIn(board('H410'), cpu('10th (Comet Lake)', 'i7', { processorClass: undefined }), d4(3200)),
    id: 'rate-class-unknown',
    says: 'Without the class a 10th generation processor drives 2666 or 2933.',
    source: CITED.rates,
    verdict: "can't tell",
    reason: 'class not known, the kit is faster than the slower class',
    needs: ['controllerRateMts'],
  },
  {
    ...swapIn(board('H410'), cpu('10th (Comet Lake)', 'i7', { processorClass: undefined }), d4(2666)),
    id: 'rate-class-unknown-slow-kit',
    says: 'A 2666 kit runs as rated with every class of the 10th generation.',
    tricky: true,
    source: CITED.rates,
    verdict: 'fits',
    reason: 'kit 2666, both classes drive at least 2666',
    values: { runsMts: 2666 },
  },
  {
    ...swapIn(board('B560', { chipset: undefined, memoryRateMtsMax: undefined }), c10i5, d4(3200)),
    id: 'rate-chipset-unknown',
    says: 'Without the chipset nobody knows whether the rate above 2666 may be set.',
    source: CITED.memOc,
    verdict: "can't tell",
    reason: '2666 if locked, 3200 if open',
    needs: ['chipset', 'boardRateMts'],
  },
  {
    ...swapIn(board('H410'), c10i5, kit('DDR4', 2, 16, 2666, { rateMts: undefined })),
    id: 'rate-kit-unknown',
    says: 'A kit of unknown rate gives an unknown rate.',
    source: CITED.practice,
    verdict: "can't tell",
    reason: 'no rate of the kit',
    needs: ['rateMts'],
  },
  {
    id: 'rate-processor-swap-up',
    says: 'A new i7 lets the 2933 kit that is fitted run as rated.',
    tricky: true,
    has: machine(board('H410'), c10i5, d4(2933)),
    add: [c10i7],
    verdict: 'fits',
    reason: 'processor 2933 instead of 2666',
    values: { runsMts: 2933 },
    source: CITED.rates,
  },
  {
    id: 'rate-processor-swap-lapses-reading',
    says: 'The 2666 read with the old processor says nothing about the new one.',
    tricky: true,
    has: machine(board('H410'), c10i5, d4(2933)),
    claims: [{ key: 'memoryRunsMts', value: 2666, source: 'read' }],
    add: [c10i7],
    verdict: 'fits',
    reason: 'processor 2933 instead of 2666',
    values: { runsMts: 2933 },
    source: CITED.rates,
  },
])
