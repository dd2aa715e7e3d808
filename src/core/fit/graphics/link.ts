import { linkGBps } from '../../facts/links.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { takesLanes } from '../storage/placing.ts'

/**
 * Graphics link: generation and lanes that card, slot and processor agree on, and what that leaves in one direction.
 *
 *   linkGBps = rate(min generation) x min lanes      of card, board slot and processor
 *
 * Fewer lanes where a drive in a sharing M.2 slot takes them. A card on a narrower link works, with lostGBps less than it could use. No claim about frames: only a run says that.
 */
export const graphicsLink = rule({
  id: 'graphics.link',
  source: {
    kind: 'standard',
    text: 'PCI Express Base Specification, link training: the lower generation and the fewer lanes of both ends',
  },
  reads: ['slotPcieGen', 'slotLanes', 'processorPcieGen', 'processorPcieLanes'],
  mayRead: ['slotLanesShared', 'sharedM2Used'],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.card !== undefined && touches(s, 'card', 'board', 'processor'),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({
    cardGen: spec(after.card, 'card', 'pcieGen'),
    cardLanes: spec(after.card, 'card', 'pcieLanes'),
  }),
  values: ({ cardGen, cardLanes }, limits, s) => {
    const slotGen = Math.min(limits.slotPcieGen, limits.processorPcieGen)
    const left = takesLanes(s, limits) ? limits.slotLanesShared : undefined
    const slotLanes = Math.min(limits.slotLanes, limits.processorPcieLanes, left ?? limits.slotLanes)
    const linkGen = Math.min(cardGen, slotGen)
    const linkLanes = Math.min(cardLanes, slotLanes)
    const [card, link] = [linkGBps(cardGen, cardLanes), linkGBps(linkGen, linkLanes)]
    return {
      cardGen,
      cardLanes,
      slotGen,
      slotLanes,
      linkGen,
      linkLanes,
      cardGBps: card,
      linkGBps: link,
      lostGBps: card === undefined || link === undefined ? undefined : card - link,
    }
  },
  verdict: ({ lostGBps }) => (lostGBps > 0 ? 'fits slower' : 'fits'),
})
