import type { Supply } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, machine, plugs, supply } from './parts.ts'
import { CITED } from './sources.ts'

// Which row of the guide's table a processor takes: the smallest whose continuous power is not below its limit.

const z790 = board('Z790')
const i7 = (limitPowerW: number) => cpu('13th (Raptor Lake)', 'i7', { limitPowerW })
const i9 = (limitPowerW: number) => cpu('13th (Raptor Lake)', 'i9', { limitPowerW })
const draws = (boardPowerW: number) => card(`${boardPowerW} W`, { boardPowerW, plugs: plugs(0, 3, 0) })
const atx3 = (ratedW: number) =>
  supply(`${ratedW} ATX 3.0`, { ratedW, rail12VW: ratedW, designVersion: 'ATX 3.0', pin16W: 600 })

const beside = (
  limitPowerW: number,
  boardPowerW: number,
  source: Supply,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(z790, i7(limitPowerW), source),
  add: [draws(boardPowerW)],
  source: CITED.processorRail,
})

export const powerPeaksProcessor = chapter('power', 'power', [
  {
    ...beside(123.2, 400, atx3(750)),
    id: 'power-peak-row-35-at',
    says: 'A limit of 123.2 W is that of the 35 W class, whose peak is 212.8 W.',
    verdict: 'fits',
    reason: '19 A x 11.2 V = 212.8 W; 3 x 400 + 212.8 + 50 = 1462.8 W of 1500 W',
    values: { demandW: 1462.8, obligedW: 1500 },
  },
  {
    ...beside(124, 400, atx3(750)),
    id: 'power-peak-row-35-over',
    says: 'Less than a watt more is the next class, whose peak is 168 W higher.',
    tricky: true,
    verdict: 'fits after work',
    reason: '34 A x 11.2 V = 380.8 W; 3 x 400 + 380.8 + 50 = 1630.8 W of 1500 W; load 574 W of 600 W',
    values: { demandW: 1630.8, obligedW: 1500 },
  },
  {
    ...beside(257.6, 350, atx3(850)),
    id: 'power-peak-row-65-at',
    says: 'A limit of 257.6 W is still the 65 W class.',
    verdict: 'fits',
    reason: '3 x 350 + 380.8 + 50 = 1480.8 W of 1700 W',
    values: { demandW: 1480.8, obligedW: 1700 },
  },
  {
    ...beside(258, 350, atx3(850)),
    id: 'power-peak-row-65-over',
    says: 'A limit of 258 W is the 125 W class.',
    verdict: 'fits',
    reason: '39 A x 11.2 V = 436.8 W; 3 x 350 + 436.8 + 50 = 1536.8 W of 1700 W',
    values: { demandW: 1536.8, obligedW: 1700 },
  },
  {
    ...beside(291.2, 350, atx3(1000)),
    id: 'power-peak-row-125-at',
    says: 'The 125 W class of the guide: 291.2 W for long, 436.8 W for 10 milliseconds.',
    verdict: 'fits',
    reason: '291.2 + 350 + 50 = 691.2 W of 800 W; 3 x 350 + 436.8 + 50 = 1536.8 W of 2000 W',
    values: { loadW: 691.2, usableW: 800, demandW: 1536.8, obligedW: 2000 },
  },
  {
    ...beside(292, 350, atx3(1000)),
    id: 'power-peak-row-125-over',
    says: 'Above 291.2 W it is the class of 165 W, whose peak is hardly higher.',
    verdict: 'fits',
    reason: '40 A x 11.2 V = 448 W; 3 x 350 + 448 + 50 = 1548 W of 2000 W',
    values: { demandW: 1548, obligedW: 2000 },
  },
  {
    ...beside(420, 325, atx3(1000)),
    id: 'power-peak-row-165-at',
    says: 'The last row of the guide, with a load that fits nearly to the watt.',
    verdict: 'fits',
    reason: '420 + 325 + 50 = 795 W of 800 W; 3 x 325 + 448 + 50 = 1473 W of 2000 W',
    values: { loadW: 795, usableW: 800, demandW: 1473, obligedW: 2000 },
  },
  {
    ...beside(253, 330, atx3(800)),
    id: 'power-peak-row-by-limit',
    says: 'Sold as a 125 W part with 253 W allowed: the limit picks the row of 257.6 W.',
    tricky: true,
    verdict: 'fits',
    reason: '253 + 330 + 50 = 633 W of 640 W; 3 x 330 + 380.8 + 50 = 1420.8 W of 1600 W',
    values: { demandW: 1420.8, obligedW: 1600 },
  },
  {
    has: machine(z790, i7(88), draws(400), atx3(750)),
    add: [i9(142)],
    source: CITED.processorRail,
    id: 'power-peak-stronger-processor',
    says: 'The card stays; the peak of the stronger processor is what the supply cannot carry.',
    tricky: true,
    verdict: 'fits after work',
    reason: '142 + 400 + 50 = 592 W of 600 W; 3 x 400 + 380.8 + 50 = 1630.8 W of 1500 W',
    values: { loadW: 592, usableW: 600, demandW: 1630.8, obligedW: 1500 },
  },
  {
    has: machine(z790, i7(65), draws(400), atx3(750)),
    add: [i9(120)],
    source: CITED.processorRail,
    id: 'power-peak-processor-same-row',
    says: 'A stronger processor in the same row of the table changes the load and not the peak.',
    verdict: 'fits',
    reason: '120 + 400 + 50 = 570 W of 600 W; 3 x 400 + 212.8 + 50 = 1462.8 W of 1500 W',
    values: { loadW: 570, usableW: 600, demandW: 1462.8, obligedW: 1500 },
  },
])
