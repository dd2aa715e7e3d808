import type { Plugs, Supply } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, machine, plugs, supply } from './parts.ts'
import { CITED } from './sources.ts'

// Demand for 100 us = 3 x board power + 10 ms peak of the processor's class + 50 W. The sustained load fits in every
// case here unless the case says otherwise.

const z790 = board('Z790')
const i7 = (limitPowerW: number) => cpu('13th (Raptor Lake)', 'i7', { limitPowerW })
const THREE = plugs(0, 3, 0)
const draws = (boardPowerW: number, sockets: Plugs = THREE) =>
  card(`${boardPowerW} W`, { boardPowerW, plugs: sockets })

/** A supply with the 16-pin plug and all the 8-pin plugs a card may ask for. */
const unit = (ratedW: number, designVersion: Supply['designVersion'], figures?: Partial<Supply>) =>
  supply(`${ratedW} ${designVersion}`, {
    ratedW,
    rail12VW: ratedW,
    designVersion,
    pin16W: 600,
    ...figures,
  })
const NO_16 = { plugs: plugs(0, 4, 0) }

const on = (
  source: Supply,
  boardPowerW: number,
  limitPowerW: number,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(z790, i7(limitPowerW), source),
  add: [draws(boardPowerW)],
  source: CITED.excursion,
})

export const powerPeaks = chapter('power', 'power', [
  {
    ...on(unit(750, 'ATX 3.0'), 412, 88),
    id: 'power-peak-750-under',
    says: 'A 750 W supply of the newer guide carries 1500 W for 100 microseconds, and that is just enough.',
    tricky: true,
    verdict: 'fits',
    reason: '3 x 412 + 212.8 + 50 = 1498.8 W of 2 x 750 = 1500 W',
    values: { demandW: 1498.8, obligedW: 1500 },
  },
  {
    ...on(unit(750, 'ATX 3.0'), 413, 88),
    id: 'power-peak-750-over',
    says: 'One watt of board power more is three watts of peak too many.',
    tricky: true,
    verdict: 'fits after work',
    reason: '3 x 413 + 212.8 + 50 = 1501.8 W of 2 x 750 = 1500 W; the load of 551 W of 600 W would fit',
    values: { demandW: 1501.8, obligedW: 1500 },
  },
  {
    ...on(unit(750, 'ATX 3.1', NO_16), 310, 65),
    id: 'power-peak-750-without-16-pin',
    says: 'Without the 16-pin plug the same watts oblige to 150 % only.',
    tricky: true,
    verdict: 'fits after work',
    reason: '3 x 310 + 212.8 + 50 = 1192.8 W of 1.5 x 750 = 1125 W',
    values: { demandW: 1192.8, obligedW: 1125 },
  },
  {
    ...on(unit(1000, 'ATX 3.0', NO_16), 333, 300),
    id: 'power-peak-1000-without-16-pin-under',
    says: 'Three watts are left of 150 % of a 1000 W supply.',
    verdict: 'fits',
    reason: '3 x 333 + 448 + 50 = 1497 W of 1.5 x 1000 = 1500 W',
    values: { demandW: 1497, obligedW: 1500 },
  },
  {
    ...on(unit(1000, 'ATX 3.0', NO_16), 334, 300),
    id: 'power-peak-1000-without-16-pin-at',
    says: 'Exactly 150 % of a 1000 W supply.',
    verdict: 'fits',
    reason: '3 x 334 + 448 + 50 = 1500 W of 1.5 x 1000 = 1500 W',
    values: { demandW: 1500, obligedW: 1500 },
  },
  {
    ...on(unit(1000, 'ATX 3.0', NO_16), 335, 300),
    id: 'power-peak-1000-without-16-pin-over',
    says: 'Three watts over 150 % of a 1000 W supply.',
    verdict: 'fits after work',
    reason: '3 x 335 + 448 + 50 = 1503 W of 1.5 x 1000 = 1500 W; the load of 685 W of 800 W would fit',
    values: { demandW: 1503, obligedW: 1500 },
  },
  {
    ...on(unit(450, 'ATX 3.0'), 310, 65),
    id: 'power-peak-450',
    says: 'At 450 W the 16-pin plug does not lift the obligation to 200 %.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1192.8 W of 1.5 x 450 = 675 W; the load of 425 W of 360 W is too much as well',
    values: { demandW: 1192.8, obligedW: 675, loadW: 425, usableW: 360 },
  },
  {
    ...on(unit(500, 'ATX 3.0'), 310, 40),
    id: 'power-peak-500',
    says: 'Above 450 W with the plug it is 200 %: the load fits to the watt, the peak does not.',
    tricky: true,
    verdict: 'fits after work',
    reason: '40 + 310 + 50 = 400 W of 400 W; 3 x 310 + 212.8 + 50 = 1192.8 W of 2 x 500 = 1000 W',
    values: { loadW: 400, usableW: 400, demandW: 1192.8, obligedW: 1000 },
  },
  {
    ...on(unit(600, 'ATX 3.1'), 310, 65),
    id: 'power-peak-600',
    says: 'A 600 W supply with the plug carries that peak.',
    verdict: 'fits',
    reason: '1192.8 W of 2 x 600 = 1200 W',
    values: { demandW: 1192.8, obligedW: 1200 },
  },
  {
    ...on(unit(650, 'ATX12V 2.x', NO_16), 300, 125),
    id: 'power-peak-300-w-card-old-guide',
    says: 'Up to 300 W the card is of a published class, and nobody asks for its peaks.',
    tricky: true,
    verdict: 'fits',
    reason: '125 + 300 + 50 = 475 W of 520 W; 300 W is not above 300 W',
    values: { loadW: 475, usableW: 520 },
    source: CITED.cardClasses,
  },
  {
    ...on(unit(650, 'ATX12V 2.x', NO_16), 301, 125),
    id: 'power-peak-301-w-card-old-guide',
    says: 'One watt above the published classes, on a supply that promises its rating and no more.',
    tricky: true,
    verdict: "can't tell",
    reason: '3 x 301 + 380.8 + 50 = 1333.8 W against the rated 650 W; the older guide obliges to no peak',
    values: { demandW: 1333.8 },
    needs: ['supplyDesignVersion'],
    source: CITED.cardClasses,
  },
  {
    ...on(unit(850, undefined, NO_16), 320, 125),
    id: 'power-peak-version-unknown',
    says: 'Nobody wrote down which guide the supply was built to.',
    verdict: "can't tell",
    reason: '3 x 320 + 380.8 + 50 = 1390.8 W against the rated 850 W',
    values: { demandW: 1390.8 },
    needs: ['supplyDesignVersion'],
    source: CITED.cardClasses,
  },
  {
    ...on(unit(1500, undefined), 334, 300),
    id: 'power-peak-rating-alone-at',
    says: 'A large supply of unknown guide carries the peak with its rating alone.',
    tricky: true,
    verdict: 'fits',
    reason: '3 x 334 + 448 + 50 = 1500 W of the rated 1500 W',
    values: { demandW: 1500 },
    source: CITED.cardClasses,
  },
  {
    ...on(unit(1500, 'ATX12V 2.x'), 335, 300),
    id: 'power-peak-rating-alone-over',
    says: 'Three watts above the rating, and the older guide obliges to nothing there.',
    verdict: "can't tell",
    reason: '3 x 335 + 448 + 50 = 1503 W against the rated 1500 W',
    values: { demandW: 1503 },
    needs: ['supplyDesignVersion'],
    source: CITED.cardClasses,
  },
  {
    ...on(unit(1000, 'ATX12V 2.x', NO_16), 350, 88),
    id: 'power-peak-big-old-supply',
    says: 'Twice the watts in use and still no promise for the peaks.',
    tricky: true,
    verdict: "can't tell",
    reason: '488 W of 800 W; 3 x 350 + 212.8 + 50 = 1312.8 W against the rated 1000 W',
    values: { loadW: 488, usableW: 800, demandW: 1312.8 },
    needs: ['supplyDesignVersion'],
    source: CITED.cardClasses,
  },
  {
    ...on(unit(850, undefined), 320, 125),
    id: 'power-peak-version-read-from-the-label',
    says: 'The builder read the issue of the guide on the label.',
    claims: [{ key: 'supplyDesignVersion', value: 'ATX 3.0', source: 'measured' }],
    verdict: 'fits',
    reason: '3 x 320 + 380.8 + 50 = 1390.8 W of 2 x 850 = 1700 W',
    values: { demandW: 1390.8, obligedW: 1700 },
  },
  {
    ...on(unit(850, undefined), 320, 125),
    id: 'power-peak-version-of-the-old-supply',
    says: 'The label was that of the old supply; of the new one nobody knows the guide.',
    tricky: true,
    claims: [{ key: 'supplyDesignVersion', value: 'ATX 3.0', source: 'measured' }],
    add: [draws(320), unit(1000, undefined)],
    verdict: "can't tell",
    reason: '1390.8 W against the rated 1000 W of the new supply',
    values: { demandW: 1390.8 },
    needs: ['supplyDesignVersion'],
  },
  {
    ...on(unit(850, 'ATX 3.0', { ratedW: undefined }), 320, 125),
    id: 'power-peak-rating-unknown',
    says: 'The obligation is a share of the rating, and that is not on record.',
    verdict: "can't tell",
    reason: '1390.8 W against 200 % of an unknown rating',
    needs: ['supplyRatedW'],
  },
  {
    has: machine(z790, i7(88), draws(350), unit(850, 'ATX12V 2.x')),
    add: [unit(850, 'ATX 3.1')],
    source: CITED.excursion,
    id: 'power-peak-new-supply-newer-guide',
    says: 'The same watts to the newer guide settle the peaks of the card.',
    verdict: 'fits',
    reason: '3 x 350 + 212.8 + 50 = 1312.8 W of 2 x 850 = 1700 W',
    values: { demandW: 1312.8, obligedW: 1700 },
  },
  {
    ...on(unit(1000, 'ATX 3.1'), 600, 142),
    id: 'power-peak-600-w-card',
    says: 'The load fits and the peak of the strongest card does not.',
    tricky: true,
    verdict: 'fits after work',
    reason: '142 + 600 + 50 = 792 W of 800 W; 3 x 600 + 380.8 + 50 = 2230.8 W of 2 x 1000 = 2000 W',
    values: { loadW: 792, usableW: 800, demandW: 2230.8, obligedW: 2000 },
  },
])
