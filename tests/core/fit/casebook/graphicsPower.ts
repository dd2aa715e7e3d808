import type { GraphicsCard, Plugs, Supply } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, machine, plugs, supply } from './parts.ts'
import { CITED } from './sources.ts'

const b450 = board('B450')
const r3000 = (limitPowerW: number | undefined) => cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5', { limitPowerW })
const draws = (boardPowerW: number | undefined, sockets = plugs(0, 1, 0)) =>
  card(`${boardPowerW} W`, { boardPowerW, plugs: sockets })
const wants = (sockets: Plugs | undefined, boardPowerW = 150) =>
  card('plugs', { boardPowerW, plugs: sockets })
const gives = (sockets: Plugs | undefined) => supply('plugs', { plugs: sockets })
/** 500 W on 12 V, of which 400 W count: with 125 W processor and 50 W for the rest, 225 W are left for the card. */
const five = supply('500', { ratedW: 550, rail12VW: 500, plugs: plugs(0, 2, 0) })

const on = (
  source: Supply,
  next: GraphicsCard,
  limitPowerW: number | undefined = 125,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(b450, r3000(limitPowerW), source),
  add: [next],
  source: CITED.budget,
})

export const graphicsPower = chapter('graphics', 'graphics', [
  {
    ...on(five, draws(224)),
    id: 'load-under',
    says: 'One watt is left of what the shop counts on.',
    verdict: 'fits',
    reason: '125 + 224 + 50 = 399 W of 400 W',
    values: { loadW: 399, usableW: 400 },
  },
  {
    ...on(five, draws(225)),
    id: 'load-at',
    says: 'Exactly what the shop counts on is enough.',
    verdict: 'fits',
    reason: '125 + 225 + 50 = 400 W of 400 W',
    values: { loadW: 400, usableW: 400 },
  },
  {
    ...on(five, draws(226, plugs(0, 2, 0))),
    id: 'load-over',
    says: 'One watt over asks for a stronger supply.',
    verdict: 'fits after work',
    reason: '125 + 226 + 50 = 401 W of 400 W',
    values: { loadW: 401, usableW: 400 },
  },
  {
    ...on(supply('unknown rail', { ratedW: 650, rail12VW: undefined }), draws(225)),
    id: 'load-rail-unknown',
    says: 'The watts on the label are for all rails together; the 12 V figure is missing.',
    tricky: true,
    verdict: "can't tell",
    reason: 'no 12 V figure',
    needs: ['supply12VW'],
  },
  {
    ...on(supply('old 500', { ratedW: 500, rail12VW: 360, plugs: plugs(0, 2, 0) }), draws(150)),
    id: 'load-weak-rail',
    says: 'An old 500 W supply has only 360 W on 12 V.',
    tricky: true,
    verdict: 'fits after work',
    reason: '125 + 150 + 50 = 325 W of 288 W',
    values: { loadW: 325, usableW: 288 },
  },
  {
    has: machine(b450, cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5', { limitPowerW: undefined }), five),
    add: [draws(150)],
    source: CITED.budget,
    id: 'load-processor-unknown',
    says: 'Without the limit of the processor the load cannot be added up.',
    verdict: "can't tell",
    reason: 'no sustained limit of the processor',
    needs: ['limitPowerW'],
  },
  {
    ...on(five, draws(undefined)),
    id: 'load-card-unknown',
    says: 'A card of unknown power cannot be added up.',
    verdict: "can't tell",
    reason: 'no board power of the card',
    needs: ['boardPowerW'],
  },
  {
    ...on(five, draws(300, plugs(0, 2, 0))),
    add: [draws(300, plugs(0, 2, 0)), supply('new 850')],
    id: 'load-with-new-supply',
    says: 'The stronger supply that comes with the card counts.',
    verdict: 'fits',
    reason: '475 W of 672 W',
    values: { loadW: 475, usableW: 672 },
  },
  {
    ...on(gives(plugs(0, 0, 0)), wants(plugs(0, 0, 0), 75)),
    id: 'plugs-none-needed',
    says: 'A 75 W card is fed by the slot.',
    verdict: 'fits',
    reason: 'no plug needed',
    source: CITED.cem,
  },
  {
    ...on(gives(plugs(1, 0, 0)), wants(plugs(0, 1, 0))),
    id: 'plugs-6-for-8',
    says: 'A 6-pin plug in an 8-pin socket gives half: another supply first.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1 x 8-pin needed, only a 6-pin there',
    source: CITED.sense,
  },
  {
    ...on(gives(plugs(0, 1, 0)), wants(plugs(1, 0, 0), 120)),
    id: 'plugs-8-for-6',
    says: 'An 8-pin plug of a supply is a 6+2 and serves a 6-pin socket.',
    tricky: true,
    verdict: 'fits',
    reason: '1 x 6-pin needed, a 6+2 there',
    source: CITED.practice,
    note: 'Card plugs of supplies have been split 6+2 for many years.',
  },
  {
    ...on(gives(plugs(0, 2, 0)), wants(plugs(1, 1, 0), 220)),
    id: 'plugs-two-8-for-8-and-6',
    says: 'Two 6+2 plugs serve an 8-pin and a 6-pin socket.',
    tricky: true,
    verdict: 'fits',
    reason: '1 x 8-pin + 1 x 6-pin needed, two 6+2 there',
    source: CITED.practice,
  },
  {
    ...on(gives(plugs(1, 1, 0)), wants(plugs(0, 2, 0), 260)),
    id: 'plugs-8-and-6-for-two-8',
    says: 'An 8-pin and a 6-pin plug are not two 8-pin plugs.',
    verdict: 'fits after work',
    reason: '2 x 8-pin needed, one there',
    source: CITED.sense,
  },
  {
    ...on(gives(plugs(0, 2, 0)), wants(plugs(0, 3, 0), 300)),
    id: 'plugs-three-8',
    says: 'One plug is missing.',
    verdict: 'fits after work',
    reason: '3 x 8-pin needed, 2 there',
    source: CITED.cem,
  },
  {
    ...on(gives(plugs(0, 4, 0)), wants(plugs(0, 0, 1), 300)),
    id: 'plugs-16-missing',
    says: 'Four 8-pin plugs are no 16-pin plug.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1 x 16-pin needed, none there',
    source: CITED.practice,
    note: 'Adapters packed with cards exist; a builder who answers for the machine fits a supply with the plug.',
  },
  {
    ...on(gives(plugs(0, 2, 1)), wants(plugs(0, 0, 1), 300)),
    id: 'plugs-16-there',
    says: 'The supply has the 16-pin plug.',
    verdict: 'fits',
    reason: '1 x 16-pin needed, 1 there',
    source: CITED.cem,
  },
  {
    ...on(gives(undefined), wants(plugs(0, 1, 0))),
    id: 'plugs-unknown',
    says: 'Nobody counted the plugs of the supply.',
    verdict: "can't tell",
    reason: 'plugs of the supply not known',
    needs: ['supplyPlugs'],
    source: CITED.practice,
  },
  {
    ...on(gives(plugs(0, 2, 0)), wants(undefined)),
    id: 'plugs-card-unknown',
    says: 'Nobody wrote down which plugs the card wants.',
    verdict: "can't tell",
    reason: 'plugs of the card not known',
    needs: ['plugs'],
    source: CITED.practice,
  },
  {
    ...on(gives(plugs(0, 1, 0)), wants(plugs(0, 1, 0))),
    id: 'plugs-of-the-old-card',
    says: 'The plug that the old card used is free for the new one.',
    tricky: true,
    verdict: 'fits',
    reason: '1 x 8-pin needed, the one of the old card is free',
    source: CITED.practice,
  },
  {
    has: machine(b450, r3000(125), gives(plugs(0, 2, 0))),
    claims: [{ key: 'supplyPlugs', value: plugs(0, 4, 1), source: 'measured' }],
    add: [wants(plugs(0, 0, 1), 250), supply('new', { plugs: plugs(0, 3, 0) })],
    source: CITED.practice,
    id: 'plugs-counted-on-the-old-supply',
    says: 'Plugs counted on the old supply are gone with it.',
    tricky: true,
    verdict: 'fits after work',
    reason: '1 x 16-pin needed, none on the new supply',
  },
])
