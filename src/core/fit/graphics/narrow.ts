import { linkGBps } from '../../facts/links.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Cut-down cards: a card with eight lanes or fewer has no lanes to spare, so an older generation of slot or processor
 * halves what it gets, and it feels that once its own memory is full. A stronger note beside graphics.link; silent
 * where a limit is not known, which graphics.link says.
 */
export const graphicsNarrow = rule({
  id: 'graphics.narrow',
  source: {
    kind: 'standard',
    text: 'PCI Express Base Specification, link training; a card short of memory fetches over the link: common practice',
  },
  reads: [],
  mayRead: ['slotPcieGen', 'processorPcieGen'],
  thresholds: ['8 lanes or fewer on the card'],
  verdicts: ['fits', 'fits slower'],
  applies: (s, { slotPcieGen, processorPcieGen }) =>
    (s.after.card?.pcieLanes ?? WIDE) <= NARROW &&
    s.after.card?.pcieGen !== undefined &&
    slotPcieGen !== undefined &&
    processorPcieGen !== undefined &&
    touches(s, 'card', 'board', 'processor'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({
    cardGen: spec(after.card, 'card', 'pcieGen'),
    cardLanes: spec(after.card, 'card', 'pcieLanes'),
  }),
  values: ({ cardGen, cardLanes }, { slotPcieGen, processorPcieGen }, { after }) => {
    const slotGen = Math.min(slotPcieGen ?? Number.NaN, processorPcieGen ?? Number.NaN)
    return {
      cardGen,
      cardLanes,
      slotGen,
      linkGBps: linkGBps(Math.min(cardGen, slotGen), cardLanes),
      cardMemory: after.card?.memoryGB === undefined ? 'not known' : `${after.card.memoryGB} GB`,
    }
  },
  verdict: ({ cardGen, slotGen }) => (slotGen < cardGen ? 'fits slower' : 'fits'),
})

const NARROW = 8
const WIDE = 16
