import type { Part } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, machine, plugs, supply, without } from './parts.ts'
import { CITED } from './sources.ts'

const z490 = board('Z490')
const i9 = (limitPowerW: number | undefined) => cpu('10th (Comet Lake)', 'i9', { limitPowerW })
const i7 = (limitPowerW: number | undefined) => cpu('10th (Comet Lake)', 'i7', { limitPowerW })
const draws = (boardPowerW: number | undefined) =>
  card(`${boardPowerW} W`, { boardPowerW, plugs: plugs(0, 2, 0) })
const rail = (rail12VW: number | undefined, ratedW = 650) =>
  supply(`${rail12VW} W on 12 V`, { ratedW, rail12VW })

const grows = (
  limitPowerW: number,
  rail12VW: number,
  ...add: readonly Part[]
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(z490, i9(limitPowerW), rail(rail12VW)),
  add,
  source: CITED.budget,
})

/** The card stays at 220 W, the supply at 400 W of use; the processor is what changes. */
const newProcessor = (limitPowerW: number): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(z490, i7(65), draws(220), rail(500)),
  add: [i9(limitPowerW)],
  source: CITED.budget,
})

/** 142 + 220 + 50 = 412 W are there; the supply is what changes. */
const newSupply = (rail12VW: number | undefined): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(z490, i7(142), draws(220), rail(600, 700)),
  add: [rail(rail12VW)],
  source: CITED.budget,
})

export const powerLoad = chapter('power', 'power', [
  {
    id: 'power-load-125-w-class',
    says: 'A processor of the 125 W class and a card of slot and one 8-pin plug, on 750 W.',
    has: machine(z490, i9(291.2), supply('750', { ratedW: 750, rail12VW: 744 })),
    add: [card('225 W', { boardPowerW: 225 })],
    verdict: 'fits',
    reason: '26 A x 11.2 V = 291.2 W; 75 + 150 = 225 W; 291.2 + 225 + 50 = 566.2 W of 0.8 x 744 = 595.2 W',
    values: { loadW: 566.2, usableW: 595.2 },
    source: CITED.processorRail,
  },
  {
    id: 'power-load-125-w-class-650',
    says: 'The same load is under the 650 W of the label and over what counts of it.',
    tricky: true,
    has: machine(z490, i9(291.2), supply('650', { ratedW: 650, rail12VW: 640 })),
    add: [card('225 W', { boardPowerW: 225 })],
    verdict: 'fits after work',
    reason: '291.2 + 225 + 50 = 566.2 W of 0.8 x 640 = 512 W',
    values: { loadW: 566.2, usableW: 512 },
    source: CITED.processorRail,
  },
  {
    id: 'power-load-box-says-125',
    says: 'With the 125 W of the box the sum would be 475 W; the processor is allowed 253 W.',
    tricky: true,
    has: machine(
      board('Z790'),
      cpu('13th (Raptor Lake)', 'i9', { limitPowerW: 253 }),
      supply('750', { ratedW: 750, rail12VW: 744 }),
    ),
    add: [draws(300)],
    verdict: 'fits after work',
    reason: '253 + 300 + 50 = 603 W of 0.8 x 744 = 595.2 W',
    values: { loadW: 603, usableW: 595.2 },
    source: CITED.turbo,
  },
  {
    ...grows(224, 640, draws(237)),
    id: 'power-load-65-w-box-under',
    says: 'A processor with 65 W on the box and 224 W allowed leaves room for a card of 237 W.',
    verdict: 'fits',
    reason: '224 + 237 + 50 = 511 W of 0.8 x 640 = 512 W',
    values: { loadW: 511, usableW: 512 },
  },
  {
    ...grows(224, 640, draws(238)),
    id: 'power-load-65-w-box-at',
    says: 'With 238 W all that counts is used, and that is enough.',
    verdict: 'fits',
    reason: '224 + 238 + 50 = 512 W of 512 W',
    values: { loadW: 512, usableW: 512 },
  },
  {
    ...grows(224, 640, draws(239)),
    id: 'power-load-65-w-box-over',
    says: 'One watt more is too much, though 65 + 239 + 50 would be 354 W.',
    tricky: true,
    verdict: 'fits after work',
    reason: '224 + 239 + 50 = 513 W of 512 W',
    values: { loadW: 513, usableW: 512 },
  },
  {
    ...newProcessor(129),
    id: 'power-load-processor-under',
    says: 'A stronger processor leaves one watt.',
    verdict: 'fits',
    reason: '129 + 220 + 50 = 399 W of 0.8 x 500 = 400 W',
    values: { loadW: 399, usableW: 400 },
  },
  {
    ...newProcessor(130),
    id: 'power-load-processor-at',
    says: 'A stronger processor takes exactly what is left.',
    verdict: 'fits',
    reason: '130 + 220 + 50 = 400 W of 400 W',
    values: { loadW: 400, usableW: 400 },
  },
  {
    ...newProcessor(131),
    id: 'power-load-processor-over',
    says: 'Not only cards ask for a stronger supply: this processor takes one watt too many.',
    tricky: true,
    verdict: 'fits after work',
    reason: '131 + 220 + 50 = 401 W of 400 W',
    values: { loadW: 401, usableW: 400 },
  },
  {
    id: 'power-load-processor-card-unknown',
    says: 'A stronger processor beside a card of which nobody knows what it draws.',
    has: machine(z490, i7(65), draws(undefined), rail(500)),
    add: [i9(131)],
    verdict: "can't tell",
    reason: 'no board power of the card that stays',
    needs: ['boardPowerW'],
    source: CITED.budget,
  },
  {
    id: 'power-load-processor-unknown',
    says: 'The new processor has a heat class on the box and no sustained limit on record.',
    has: machine(z490, i7(65), draws(220), rail(500)),
    add: [i9(undefined)],
    verdict: "can't tell",
    reason: 'no sustained limit of the new processor',
    needs: ['limitPowerW'],
    source: CITED.turbo,
  },
  {
    ...newSupply(516),
    id: 'power-load-new-supply-under',
    says: 'A smaller supply than before is still enough.',
    verdict: 'fits',
    reason: '142 + 220 + 50 = 412 W of 0.8 x 516 = 412.8 W',
    values: { loadW: 412, usableW: 412.8 },
  },
  {
    ...newSupply(515),
    id: 'power-load-new-supply-at',
    says: 'A new supply of which exactly the load counts is enough.',
    verdict: 'fits',
    reason: '142 + 220 + 50 = 412 W of 0.8 x 515 = 412 W',
    values: { loadW: 412, usableW: 412 },
  },
  {
    ...newSupply(514),
    id: 'power-load-new-supply-over',
    says: 'A new supply that is too weak for what is in the machine waits for a stronger one.',
    verdict: 'fits after work',
    reason: '142 + 220 + 50 = 412 W of 0.8 x 514 = 411.2 W',
    values: { loadW: 412, usableW: 411.2 },
  },
  {
    ...newSupply(undefined),
    id: 'power-load-new-supply-rail-unknown',
    says: 'A new supply with 650 W on the carton and no figure for 12 V.',
    tricky: true,
    verdict: "can't tell",
    reason: 'the label adds up all rails; the 12 V figure is missing',
    needs: ['supply12VW'],
  },
  {
    id: 'power-load-new-supply-weak-rail',
    says: 'A cheap 700 W supply has 450 W on 12 V and is weaker than the 500 W one it replaces.',
    tricky: true,
    has: machine(z490, i7(142), draws(200), supply('500', { ratedW: 500, rail12VW: 490 })),
    add: [supply('cheap 700', { ratedW: 700, rail12VW: 450 })],
    verdict: 'fits after work',
    reason: '142 + 200 + 50 = 392 W of 0.8 x 450 = 360 W',
    values: { loadW: 392, usableW: 360 },
    source: CITED.budget,
  },
  {
    id: 'power-load-rail-read-from-the-label',
    says: 'The data sheet is silent and the builder read 480 W for 12 V on the label.',
    has: machine(z490, i9(125), rail(undefined)),
    claims: [{ key: 'supply12VW', value: 480, source: 'measured' }],
    add: [draws(209)],
    verdict: 'fits',
    reason: '125 + 209 + 50 = 384 W of 0.8 x 480 = 384 W',
    values: { loadW: 384, usableW: 384 },
    source: CITED.budget,
  },
  {
    id: 'power-load-label-of-the-old-supply',
    says: 'The 12 V figure was read on the old label; the new supply has none on record.',
    tricky: true,
    has: machine(z490, i9(125), rail(undefined)),
    claims: [{ key: 'supply12VW', value: 480, source: 'measured' }],
    add: [draws(209), supply('new', { rail12VW: undefined })],
    verdict: "can't tell",
    reason: 'the label was that of the old supply',
    needs: ['supply12VW'],
    source: CITED.budget,
  },
  {
    id: 'power-load-weaker-card',
    says: 'A 75 W card takes the place of a 250 W card; the load falls.',
    has: machine(z490, i9(125), card('old 250', { boardPowerW: 250 }), rail(500)),
    add: [card('75 W', { boardPowerW: 75, plugs: plugs(0, 0, 0) })],
    verdict: 'fits',
    reason: '125 + 75 + 50 = 250 W of 400 W',
    values: { loadW: 250, usableW: 400 },
    source: CITED.budget,
  },
  {
    id: 'power-load-old-card-is-not-added',
    says: 'The old card goes, so its 150 W are not added to those of the new one.',
    tricky: true,
    has: machine(z490, i9(125), rail(500)),
    add: [draws(225)],
    verdict: 'fits',
    reason: '125 + 225 + 50 = 400 W of 400 W; with the old 150 W it would be 550 W',
    values: { loadW: 400, usableW: 400 },
    source: CITED.budget,
  },
  {
    id: 'power-load-no-card',
    says: 'Without a card a small supply is enough, and nobody asks for its card plugs.',
    tricky: true,
    has: without('card', machine(board('B550'), cpu('Ryzen 5000G, 5500, 5700 (Zen 3)', '5600G'))),
    add: [supply('small', { ratedW: 200, rail12VW: 172.5, plugs: undefined })],
    verdict: 'fits',
    reason: '88 + 0 + 50 = 138 W of 0.8 x 172.5 = 138 W; no card, no plug',
    values: { loadW: 138, usableW: 138 },
    source: CITED.budget,
  },
])
