import type { Plugs, Supply } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, machine, plugs, supply } from './parts.ts'
import { CITED } from './sources.ts'

// Two plugs in a row hang on one cable, and one cable carries 150 W, as one 8-pin plug does.

const TWO = plugs(0, 2, 0)
const THREE = plugs(0, 3, 0)
const cabled = (cardCables: number | undefined) =>
  supply(`${cardCables} cables`, {
    ...{ ratedW: 850, rail12VW: 850, designVersion: 'ATX 3.1' },
    ...{ plugs: plugs(0, 4, 1), pin16W: 600, cardCables },
  })
const draws = (boardPowerW: number, sockets: Plugs = TWO) =>
  card(`${boardPowerW} W`, { boardPowerW, plugs: sockets })

const on = (
  source: Supply,
  boardPowerW: number,
  sockets: Plugs = TWO,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(board('B550'), cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5'), source),
  add: [draws(boardPowerW, sockets)],
  source: CITED.cardCable,
})

export const powerCables = chapter('power', 'power', [
  {
    ...on(cabled(1), 224),
    id: 'power-cable-one-for-two-under',
    says: 'Two plugs in a row are enough for a card that takes less than 150 W by cable.',
    tricky: true,
    verdict: 'fits',
    reason: '224 - 75 = 149 W of 1 x 150 W',
    values: { plugLoadW: 149, plugsCarryW: 150 },
  },
  {
    ...on(cabled(1), 225),
    id: 'power-cable-one-for-two-at',
    says: 'Two plugs in a row carry exactly 150 W.',
    tricky: true,
    verdict: 'fits',
    reason: '225 - 75 = 150 W of 1 x 150 W',
    values: { plugLoadW: 150, plugsCarryW: 150 },
  },
  {
    ...on(cabled(1), 226),
    id: 'power-cable-one-for-two-over',
    says: 'Both sockets find a plug, and the one cable behind them is one watt short.',
    tricky: true,
    verdict: 'fits after work',
    reason: '226 - 75 = 151 W of 1 x 150 W',
    values: { plugLoadW: 151, plugsCarryW: 150 },
  },
  {
    ...on(cabled(2), 300),
    id: 'power-cable-one-each',
    says: 'A cable for each socket.',
    verdict: 'fits',
    reason: '2 sockets, 2 cables',
  },
  {
    ...on(cabled(2), 374, THREE),
    id: 'power-cable-two-for-three-under',
    says: 'Three sockets on two cables, with one watt to spare.',
    verdict: 'fits',
    reason: '374 - 75 = 299 W of 2 x 150 = 300 W; 3 x 374 + 212.8 + 50 = 1384.8 W of 1700 W',
    values: { plugLoadW: 299, plugsCarryW: 300 },
  },
  {
    ...on(cabled(2), 375, THREE),
    id: 'power-cable-two-for-three-at',
    says: 'Three sockets on two cables, all of it used.',
    verdict: 'fits',
    reason: '375 - 75 = 300 W of 2 x 150 = 300 W; 3 x 375 + 212.8 + 50 = 1387.8 W of 1700 W',
    values: { plugLoadW: 300, plugsCarryW: 300 },
  },
  {
    ...on(cabled(2), 376, THREE),
    id: 'power-cable-two-for-three-over',
    says: 'Three sockets on two cables, one watt too many.',
    tricky: true,
    verdict: 'fits after work',
    reason: '376 - 75 = 301 W of 2 x 150 = 300 W; the load of 514 W of 680 W would fit',
    values: { plugLoadW: 301, plugsCarryW: 300 },
  },
  {
    ...on(cabled(1), 226, plugs(1, 1, 0)),
    id: 'power-cable-8-and-6-in-a-row',
    says: 'An 8-pin and a 6-pin socket on one cable are two sockets as well.',
    verdict: 'fits after work',
    reason: '226 - 75 = 151 W of 1 x 150 W',
    values: { plugLoadW: 151, plugsCarryW: 150 },
  },
  {
    ...on(cabled(1), 200, plugs(0, 1, 0)),
    id: 'power-cable-one-for-one',
    says: 'One socket on one cable.',
    verdict: 'fits',
    reason: '1 socket, 1 cable',
  },
  {
    ...on(cabled(1), 400, plugs(0, 0, 1)),
    id: 'power-cable-16-pin-is-one-socket',
    says: 'A 16-pin socket is one socket, and its own plug says what its cable carries.',
    tricky: true,
    verdict: 'fits',
    reason: '1 socket, 1 cable; 400 - 75 = 325 W of the 600 W on the plug; 1462.8 W of 1700 W',
    values: { plugLoadW: 325, plugsCarryW: 600 },
  },
  {
    ...on(cabled(undefined), 300),
    id: 'power-cable-unknown',
    says: 'Nobody counted the cables: the plugs are there, and one cable a socket is asked for.',
    verdict: 'fits',
    reason: '2 x 8-pin needed, 4 there; cables not known, a caution only',
  },
  {
    ...on(cabled(undefined), 300),
    id: 'power-cable-counted-in-the-machine',
    says: 'The builder looked: all plugs of this supply hang on one cable.',
    claims: [{ key: 'cardCables', value: 1, source: 'measured' }],
    verdict: 'fits after work',
    reason: '300 - 75 = 225 W of 1 x 150 W',
    values: { plugLoadW: 225, plugsCarryW: 150 },
  },
  {
    ...on(cabled(1), 300),
    id: 'power-cable-new-supply',
    says: 'The single cable goes with the old supply; the new one brings two.',
    tricky: true,
    claims: [{ key: 'cardCables', value: 1, source: 'measured' }],
    add: [draws(300), cabled(2)],
    verdict: 'fits',
    reason: '2 sockets, 2 cables of the new supply',
  },
])
