import type { Plugs, Supply } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, machine, plugs, supply, without } from './parts.ts'
import { CITED } from './sources.ts'

const b550 = board('B550')
const r5000 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const SIXTEEN = plugs(0, 0, 1)
const draws = (boardPowerW: number, sockets: Plugs = SIXTEEN) =>
  card(`${boardPowerW} W`, { boardPowerW, plugs: sockets })

/** A supply to the newer guide whose 16-pin plug is printed with so many watts. */
const grants = (pin16W: number | undefined, ratedW = 850) =>
  supply(`${ratedW} with ${pin16W} W plug`, { ratedW, rail12VW: ratedW, designVersion: 'ATX 3.1', pin16W })
const gives = (sockets: Plugs | undefined, figures?: Partial<Supply>) =>
  supply('plugs', { plugs: sockets, ...figures })

const on = (
  source: Supply,
  boardPowerW: number,
  sockets: Plugs = SIXTEEN,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(b550, r5000, source),
  add: [draws(boardPowerW, sockets)],
  source: CITED.pin16,
})

export const powerPlugs = chapter('power', 'power', [
  {
    ...on(grants(150), 224),
    id: 'power-pin16-150-under',
    says: 'A plug of 150 W and the slot feed a card of 224 W.',
    tricky: true,
    verdict: 'fits',
    reason: '224 - 75 = 149 W of 150 W',
    values: { plugLoadW: 149, plugsCarryW: 150 },
  },
  {
    ...on(grants(150), 225),
    id: 'power-pin16-150-at',
    says: 'A plug of 150 W and the slot feed exactly 225 W.',
    tricky: true,
    verdict: 'fits',
    reason: '225 - 75 = 150 W of 150 W',
    values: { plugLoadW: 150, plugsCarryW: 150 },
  },
  {
    ...on(grants(150), 226),
    id: 'power-pin16-150-over',
    says: 'The plug goes in, and one watt is missing.',
    verdict: 'fits after work',
    reason: '226 - 75 = 151 W of 150 W',
    values: { plugLoadW: 151, plugsCarryW: 150 },
  },
  {
    ...on(grants(300), 374),
    id: 'power-pin16-300-under',
    says: 'A plug of 300 W feeds a card of 374 W, because the slot gives 75 W.',
    tricky: true,
    verdict: 'fits',
    reason: '374 - 75 = 299 W of 300 W; 3 x 374 + 212.8 + 50 = 1384.8 W of 1700 W',
    values: { plugLoadW: 299, plugsCarryW: 300 },
  },
  {
    ...on(grants(300), 375),
    id: 'power-pin16-300-at',
    says: 'A plug of 300 W and the slot feed exactly 375 W.',
    tricky: true,
    verdict: 'fits',
    reason: '375 - 75 = 300 W of 300 W; 3 x 375 + 212.8 + 50 = 1387.8 W of 1700 W',
    values: { plugLoadW: 300, plugsCarryW: 300 },
  },
  {
    ...on(grants(300), 376),
    id: 'power-pin16-300-over',
    says: 'The shape of the plug is right and the watts printed on it are one too few.',
    tricky: true,
    verdict: 'fits after work',
    reason: '376 - 75 = 301 W of 300 W; load 88 + 376 + 50 = 514 W of 680 W',
    values: { plugLoadW: 301, plugsCarryW: 300 },
  },
  {
    ...on(grants(450, 1000), 525),
    id: 'power-pin16-450-at',
    says: 'A plug of 450 W and the slot feed 525 W.',
    verdict: 'fits',
    reason: '525 - 75 = 450 W of 450 W; 3 x 525 + 212.8 + 50 = 1837.8 W of 2000 W',
    values: { plugLoadW: 450, plugsCarryW: 450 },
  },
  {
    ...on(grants(450, 1000), 526),
    id: 'power-pin16-450-over',
    says: 'A plug of 450 W is one watt short for 526 W.',
    verdict: 'fits after work',
    reason: '526 - 75 = 451 W of 450 W; load 88 + 526 + 50 = 664 W of 800 W',
    values: { plugLoadW: 451, plugsCarryW: 450 },
  },
  {
    ...on(grants(600, 1200), 600),
    id: 'power-pin16-600',
    says: 'A plug of 600 W feeds the strongest card that the standard allows.',
    verdict: 'fits',
    reason: '600 - 75 = 525 W of 600 W; 3 x 600 + 212.8 + 50 = 2062.8 W of 2400 W',
    values: { plugLoadW: 525, plugsCarryW: 600 },
  },
  {
    ...on(grants(450, 1200), 600),
    id: 'power-pin16-450-for-600-w-card',
    says: 'A 1200 W supply whose plug grants 450 W does not feed a card of 600 W.',
    tricky: true,
    verdict: 'fits after work',
    reason: '600 - 75 = 525 W of 450 W; load 738 W of 960 W',
    values: { plugLoadW: 525, plugsCarryW: 450 },
  },
  {
    ...on(grants(undefined), 250),
    id: 'power-pin16-unknown',
    says: 'The plug is there and nobody read what is printed on it.',
    tricky: true,
    verdict: "can't tell",
    reason: '250 - 75 = 175 W of an unknown figure: 150, 300, 450 or 600 W',
    needs: ['pin16W'],
  },
  {
    ...on(grants(undefined), 250, plugs(0, 2, 0)),
    id: 'power-pin16-unknown-and-unused',
    says: 'A card with 8-pin sockets does not ask what the 16-pin plug grants.',
    verdict: 'fits',
    reason: '2 x 8-pin needed, 4 there',
    source: CITED.cem,
  },
  {
    ...on(grants(undefined), 375),
    id: 'power-pin16-read-from-the-plug',
    says: 'The builder read 300 W on the plug.',
    claims: [{ key: 'pin16W', value: 300, source: 'measured' }],
    verdict: 'fits',
    reason: '375 - 75 = 300 W of 300 W',
    values: { plugLoadW: 300, plugsCarryW: 300 },
  },
  {
    ...on(grants(undefined), 250),
    id: 'power-pin16-of-the-old-supply',
    says: 'The figure was printed on the plug of the old supply, which goes.',
    tricky: true,
    claims: [{ key: 'pin16W', value: 600, source: 'measured' }],
    add: [draws(250), grants(undefined, 1000)],
    verdict: "can't tell",
    reason: 'the plug of the new supply is another one',
    needs: ['pin16W'],
  },
  {
    ...on(gives(plugs(0, 4, 0)), 250),
    id: 'power-plugs-four-8-for-16',
    says: 'Four 8-pin plugs have watts enough and no adapter is offered.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1 x 16-pin needed, none there, though 4 x 150 W would be 600 W',
    source: CITED.practice,
  },
  {
    ...on(gives(SIXTEEN, { pin16W: 600 }), 150, plugs(0, 1, 0)),
    id: 'power-plugs-16-for-8',
    says: 'A 16-pin plug of 600 W does not go into an 8-pin socket.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1 x 8-pin needed, none there',
    source: CITED.cem,
  },
  {
    ...on(gives(plugs(1, 0, 0)), 140, plugs(0, 1, 0)),
    id: 'power-plugs-6-in-8',
    says: 'A 6-pin plug goes into an 8-pin socket and the card sees 75 W there.',
    tricky: true,
    verdict: 'fits after work',
    reason:
      '75 + 75 = 150 W would do for 140 W; the sense pins keep the card from it, and 1 x 8-pin is needed',
    source: CITED.sense,
  },
  {
    ...on(gives(plugs(2, 0, 0)), 150, plugs(0, 1, 0)),
    id: 'power-plugs-two-6-for-8',
    says: 'Two 6-pin plugs of 75 W are no 8-pin plug of 150 W.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1 x 8-pin needed, none there',
    source: CITED.sense,
  },
  {
    ...on(gives(plugs(0, 2, 0)), 180, plugs(2, 0, 0)),
    id: 'power-plugs-two-8-for-two-6',
    says: 'Two 6+2 plugs serve two 6-pin sockets.',
    verdict: 'fits',
    reason: '2 x 6-pin needed, two 6+2 there',
    source: CITED.practice,
  },
  {
    ...on(gives(plugs(0, 1, 0)), 180, plugs(1, 1, 0)),
    id: 'power-plugs-8-serves-once',
    says: 'One 6+2 plug serves the 8-pin or the 6-pin socket, not both.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1 x 8-pin + 1 x 6-pin needed, one 6+2 there',
    source: CITED.cem,
  },
  {
    ...on(gives(undefined), 70, plugs(0, 0, 0)),
    id: 'power-plugs-unknown-and-unused',
    says: 'Nobody counted the plugs, and a card fed by the slot needs none.',
    tricky: true,
    verdict: 'fits',
    reason: 'no plug needed',
    source: CITED.cem,
  },
  {
    has: machine(b550, r5000, draws(250, plugs(0, 2, 0))),
    add: [gives(plugs(0, 1, 0))],
    source: CITED.cem,
    id: 'power-plugs-new-supply-too-few',
    says: 'The new supply has fewer plugs than the card that stays.',
    verdict: 'fits after work',
    reason: '2 x 8-pin needed, one there',
  },
  {
    has: machine(b550, r5000, draws(250, plugs(0, 2, 0))),
    add: [gives(undefined)],
    source: CITED.practice,
    id: 'power-plugs-new-supply-unknown',
    says: 'Nobody wrote down the plugs of the new supply.',
    verdict: "can't tell",
    reason: '2 x 8-pin needed, plugs of the new supply not known',
    needs: ['supplyPlugs'],
  },
  {
    has: without('card', machine(b550, cpu('Ryzen 5000G, 5500, 5700 (Zen 3)', '5600G'), gives(SIXTEEN))),
    add: [draws(150, plugs(0, 1, 0))],
    source: CITED.cem,
    id: 'power-plugs-first-card',
    says: 'The first card of a machine asks for a plug like any other.',
    verdict: 'fits after work',
    reason: '1 x 8-pin needed, none there',
  },
])
