import type { Board, GraphicsCard, Processor } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, machine } from './parts.ts'
import { CITED } from './sources.ts'

const r3000 = cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5')
const r5000 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const r5500 = cpu('Ryzen 5000G, 5500, 5700 (Zen 3)', '5500', { integratedGraphics: false })
const r2400g = cpu('Ryzen 2000G (Raven Ridge)', '2400G')
const r8500g = cpu('Ryzen 8000G (Phoenix)', '8500G')
const r8600g = cpu('Ryzen 8000G (Phoenix)', '8600G')
const r9000 = cpu('Ryzen 9000 (Zen 5)', 'Ryzen 7')
const athlon = cpu('Athlon 200GE-3000G', '200GE to 3000G')
const haswell = cpu('4th (Haswell)', 'i5')
const c10 = cpu('10th (Comet Lake)', 'i5')
const c11 = cpu('11th (Rocket Lake)', 'i5')
const c12 = cpu('12th (Alder Lake)', 'i5')
const linked = (pcieGen: number | undefined, pcieLanes: number | undefined): GraphicsCard =>
  card(`gen ${pcieGen} x${pcieLanes}`, { pcieGen, pcieLanes })
const openGen = (chipset: string): Board => board(chipset, { slotPcieGen: undefined })

const into = (
  main: Board,
  processor: Processor,
  next: GraphicsCard,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(main, processor),
  add: [next],
  source: CITED.link,
})

const full = (linkGBps: number) => ({ verdict: 'fits' as const, values: { linkGBps, cardGBps: linkGBps } })
const less = (linkGBps: number, cardGBps: number) => ({
  verdict: 'fits slower' as const,
  values: { linkGBps, cardGBps },
})

export const graphicsLink = chapter('graphics', 'graphics', [
  {
    ...into(board('B450'), r3000, linked(3, 16)),
    ...full(15.754),
    id: 'link-gen3-in-gen3',
    says: 'A gen 3 x16 card in a gen 3 x16 slot loses nothing.',
    reason: 'gen 3 x16 at both ends',
  },
  {
    ...into(board('B450'), r3000, linked(4, 16)),
    ...less(15.754, 31.508),
    id: 'link-gen4-in-b450',
    says: 'The processor offers gen 4, the B450 board does not.',
    tricky: true,
    reason: 'slot gen 3, card and processor gen 4',
  },
  {
    ...into(board('B550'), r5000, linked(4, 16)),
    ...full(31.508),
    id: 'link-gen4-in-b550',
    says: 'Gen 4 card, gen 4 board, gen 4 processor.',
    reason: 'gen 4 x16 throughout',
  },
  {
    ...into(board('B550'), r5000, linked(3, 16)),
    ...full(15.754),
    id: 'link-gen3-in-gen4',
    says: 'An older card in a newer slot has all it can use.',
    reason: 'the card itself ends at gen 3',
  },
  {
    ...into(board('B450'), r3000, linked(4, 8)),
    ...less(7.877, 15.754),
    id: 'link-x8-in-b450',
    says: 'A card with eight lanes pays twice in an older slot.',
    reason: 'gen 3 x8',
  },
  {
    ...into(board('B550'), r5000, linked(4, 8)),
    ...full(15.754),
    id: 'link-x8-in-b550',
    says: 'The same card has all it can use in a gen 4 slot.',
    reason: 'gen 4 x8',
  },
  {
    ...into(board('B550'), r5500, linked(4, 8)),
    ...less(7.877, 15.754),
    id: 'link-x8-behind-5500',
    says: 'The board is gen 4 and the 5500 in it is not.',
    tricky: true,
    reason: 'processor gen 3, card gen 4 x8',
  },
  {
    ...into(board('B450'), r2400g, linked(3, 16)),
    ...less(7.877, 15.754),
    id: 'link-x16-behind-2400g',
    says: 'A 2000G feeds the long slot with eight lanes.',
    tricky: true,
    reason: 'processor x8',
  },
  {
    ...into(board('B450'), r2400g, linked(4, 8)),
    ...less(7.877, 15.754),
    id: 'link-x8-behind-2400g',
    says: 'Eight lanes at both ends, and the generation still halves it.',
    reason: 'gen 3 x8 against gen 4 x8',
  },
  {
    ...into(board('B450'), r3000, linked(4, 4)),
    ...less(3.938, 7.877),
    id: 'link-x4-in-b450',
    says: 'A cut-down card with four lanes gets 3.9 GB/s in a gen 3 slot.',
    reason: 'gen 3 x4',
  },
  {
    ...into(board('B550'), r5000, linked(4, 4)),
    ...full(7.877),
    id: 'link-x4-in-b550',
    says: 'The cut-down card has its four lanes in full at gen 4.',
    reason: 'gen 4 x4',
  },
  {
    ...into(board('H81'), haswell, linked(4, 4)),
    ...less(2, 7.877),
    id: 'link-x4-in-h81',
    says: 'The cut-down card in a gen 2 slot is left with 2 GB/s.',
    tricky: true,
    reason: 'gen 2 x4, though the processor offers gen 3',
  },
  {
    ...into(board('H81'), haswell, linked(3, 16)),
    ...less(8, 15.754),
    id: 'link-x16-in-h81',
    says: 'Sixteen lanes at gen 2 carry 8 GB/s.',
    reason: 'gen 2 x16',
  },
  {
    ...into(board('B650'), r8500g, linked(4, 8)),
    ...less(7.877, 15.754),
    id: 'link-x8-behind-8500g',
    says: 'An 8500G has four lanes for the card.',
    tricky: true,
    reason: 'processor gen 4 x4',
  },
  {
    ...into(board('B650'), r8500g, linked(4, 4)),
    ...full(7.877),
    id: 'link-x4-behind-8500g',
    says: 'Four lanes of the card meet four lanes of the 8500G.',
    reason: 'gen 4 x4',
  },
  {
    ...into(board('B650'), r8600g, linked(4, 16)),
    ...less(15.754, 31.508),
    id: 'link-x16-behind-8600g',
    says: 'An 8600G has eight lanes for the card.',
    tricky: true,
    reason: 'processor gen 4 x8',
  },
  {
    ...into(board('B650'), r8600g, linked(4, 8)),
    ...full(15.754),
    id: 'link-x8-behind-8600g',
    says: 'A card with eight lanes misses nothing behind an 8600G.',
    reason: 'gen 4 x8',
  },
  {
    ...into(board('B560'), c10, linked(4, 16)),
    ...less(15.754, 31.508),
    id: 'link-10th-in-b560',
    says: 'The B560 slot is gen 4 only with an 11th generation processor.',
    tricky: true,
    reason: 'processor gen 3',
  },
  {
    ...into(board('B560'), c11, linked(4, 16)),
    ...full(31.508),
    id: 'link-11th-in-b560',
    says: 'With an 11th generation processor the same slot is gen 4.',
    reason: 'gen 4 x16',
  },
  {
    id: 'link-processor-swap',
    says: 'A new processor opens gen 4 to the card that is fitted.',
    tricky: true,
    has: machine(board('B560'), c10, linked(4, 16)),
    add: [c11],
    ...full(31.508),
    reason: 'processor gen 4 instead of gen 3',
    source: CITED.link,
  },
  {
    id: 'link-processor-swap-down',
    says: 'A 5500 in place of a Ryzen 3000 takes gen 4 away from the card that is fitted.',
    tricky: true,
    has: machine(board('B550'), r3000, linked(4, 8)),
    add: [r5500],
    ...less(7.877, 15.754),
    reason: 'processor gen 3 instead of gen 4',
    source: CITED.link,
  },
  {
    ...into(board('B650'), r9000, linked(5, 16)),
    ...less(31.508, 63.015),
    id: 'link-gen5-in-b650',
    says: 'B650 wires gen 4 to the card.',
    reason: 'slot gen 4',
  },
  {
    ...into(board('B850'), r9000, linked(5, 8)),
    ...full(31.508),
    id: 'link-gen5-x8-in-b850',
    says: 'A gen 5 card with eight lanes in a slot that is wired gen 5.',
    reason: 'gen 5 x8',
  },
  {
    ...into(board('B650'), r9000, linked(5, 8)),
    ...less(15.754, 31.508),
    id: 'link-gen5-x8-in-b650',
    says: 'The gen 5 card with eight lanes loses half at gen 4.',
    reason: 'gen 4 x8',
  },
  {
    ...into(openGen('H470'), c11, linked(4, 16)),
    verdict: "can't tell",
    id: 'link-h470-unwired',
    says: 'An H470 board gives gen 4 only if its maker wired it, and nobody says so.',
    tricky: true,
    reason: 'slot gen 3 or 4',
    needs: ['slotPcieGen'],
  },
  {
    ...into(openGen('H470'), c11, linked(3, 16)),
    ...full(15.754),
    id: 'link-h470-gen3-card',
    says: 'A gen 3 card does not care how the H470 slot is wired.',
    tricky: true,
    reason: 'slot at least gen 3',
  },
  {
    ...into(openGen('B660'), c12, linked(5, 16)),
    verdict: "can't tell",
    id: 'link-b660-gen5-card',
    says: 'Many LGA1700 boards wire gen 4 only: no promise for a gen 5 card.',
    reason: 'slot gen 4 or 5',
    needs: ['slotPcieGen'],
  },
  {
    ...into(openGen('B660'), c12, linked(4, 16)),
    ...full(31.508),
    id: 'link-b660-gen4-card',
    says: 'A gen 4 card has all it can use on every LGA1700 board.',
    tricky: true,
    reason: 'slot at least gen 4',
  },
  {
    ...into(openGen('B840'), r9000, linked(4, 16)),
    verdict: "can't tell",
    id: 'link-b840',
    says: 'For B840 both gen 3 and gen 4 have been printed.',
    reason: 'slot gen 3 or 4',
    needs: ['slotPcieGen'],
  },
  {
    ...into(board('A320'), athlon, linked(3, 16)),
    verdict: "can't tell",
    id: 'link-athlon-x16',
    says: 'An Athlon 200GE feeds the card with four or eight lanes; reports differ.',
    tricky: true,
    reason: 'processor x4 or x8',
    needs: ['processorPcieLanes'],
  },
  {
    ...into(board('A320'), athlon, linked(3, 4)),
    ...full(3.938),
    id: 'link-athlon-x4',
    says: 'A card with four lanes has them with an Athlon either way.',
    tricky: true,
    reason: 'processor at least x4',
  },
])
