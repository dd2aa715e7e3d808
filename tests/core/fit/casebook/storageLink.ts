import type { Board, Drive, GraphicsCard, M2Socket } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, without } from './parts.ts'
import { CITED } from './sources.ts'
import { b550, holding, m2Sata, pcieDrive, socket } from './storageParts.ts'

const i5of12 = cpu('12th (Alder Lake)', 'i5')
const linked = (pcieGen: number | undefined, pcieLanes = 4): Drive =>
  pcieDrive(`gen ${pcieGen} x${pcieLanes}`, { pcieGen, pcieLanes })
const wired = (pcieGen: number, lanes: number, name = 'M2_1'): M2Socket => socket(name, { pcieGen, lanes })
const h610 = (...m2Sockets: readonly M2Socket[]): Board => board('H610', { m2Sockets, sataPorts: 4 })

const into = (
  main: Board | readonly M2Socket[],
  next: Drive,
  fitted: readonly Drive[] = [],
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: 'kind' in main ? holding(main, fitted, i5of12) : holding(b550(main), fitted),
  add: [next],
  source: CITED.link,
})

const full = (linkGBps: number) => ({ verdict: 'fits' as const, values: { linkGBps, driveGBps: linkGBps } })
const less = (linkGBps: number, driveGBps: number) => ({
  verdict: 'fits slower' as const,
  values: { linkGBps, driveGBps },
})

/** M2_2 takes eight lanes from the graphics slot while it holds a drive; M2_1 is taken. */
const sharing = [socket('M2_1'), socket('M2_2', { sharesSlot: true })]
const onlySharing = [socket('M2_2', { sharesSlot: true })]
const beside = (
  graphics: GraphicsCard,
  sockets: readonly M2Socket[],
  fitted: readonly Drive[],
  figures?: Partial<Board>,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: holding(b550(sockets, { slotLanesShared: 8, ...figures }), fitted, undefined, graphics),
  add: [pcieDrive('new')],
  source: CITED.m2Sharing,
})
const old = [pcieDrive('old')]

export const storageLink = chapter('storage', 'storage', [
  {
    ...into([wired(3, 4)], linked(4)),
    ...less(3.938, 7.877),
    id: 'storage-link-gen4-in-gen3',
    says: 'A gen 4 drive in a gen 3 socket runs at half its rate.',
    reason: 'gen 3 x4 gives 4 x 0.9846 = 3.938 GB/s, the drive could do 4 x 1.9692 = 7.877 GB/s',
  },
  {
    ...into([wired(3, 2)], linked(4)),
    ...less(1.969, 7.877),
    id: 'storage-link-gen4-in-gen3-x2',
    says: 'With two old lanes a quarter of a gen 4 drive is left.',
    tricky: true,
    reason: 'gen 3 x2 gives 2 x 0.9846 = 1.969 GB/s of 7.877 GB/s',
  },
  {
    ...into([wired(4, 4)], linked(4)),
    ...full(7.877),
    id: 'storage-link-gen4-in-gen4',
    says: 'A gen 4 drive in a gen 4 socket has all it can use.',
    reason: 'gen 4 x4 at both ends: 4 x 1.9692 = 7.877 GB/s',
  },
  {
    ...into([wired(4, 4)], linked(3)),
    ...full(3.938),
    id: 'storage-link-gen3-in-gen4',
    says: 'An older drive in a newer socket loses nothing.',
    reason: 'the drive itself ends at gen 3 x4, 3.938 GB/s',
  },
  {
    ...into([wired(4, 4)], linked(5)),
    ...less(7.877, 15.754),
    id: 'storage-link-gen5-in-gen4',
    says: 'A gen 5 drive in a gen 4 socket runs at half its rate.',
    reason: 'gen 4 x4 gives 7.877 GB/s of 15.754 GB/s',
  },
  {
    ...into([wired(4, 2)], linked(3)),
    ...less(1.969, 3.938),
    id: 'storage-link-gen3-in-gen4-x2',
    says: 'Two gen 4 lanes carry as much as four gen 3 lanes, but not for a gen 3 drive.',
    tricky: true,
    reason: 'lower generation and lower width: gen 3 x2 = 1.969 GB/s of 3.938 GB/s',
  },
  {
    ...into([wired(3, 4)], linked(4, 2)),
    ...less(1.969, 3.938),
    id: 'storage-link-gen4-x2-in-gen3',
    says: 'Four lanes in the socket do not help a drive that has two.',
    tricky: true,
    reason: 'lower generation and lower width: gen 3 x2 = 1.969 GB/s of 2 x 1.9692 = 3.938 GB/s',
  },
  {
    ...into([wired(3, 2)], linked(3, 2)),
    ...full(1.969),
    id: 'storage-link-x2-in-x2',
    says: 'A drive with two lanes has all it can use in a socket with two.',
    reason: 'gen 3 x2 at both ends: 1.969 GB/s',
  },
  {
    ...into(h610(wired(3, 4)), linked(4)),
    ...less(3.938, 7.877),
    id: 'storage-link-h610-gen4',
    says: 'The processor has gen 4 lanes for a drive, and H610 does not lead them to a socket.',
    tricky: true,
    reason: 'the socket hangs on the chipset, gen 3 x4: 3.938 GB/s of 7.877 GB/s',
    source: CITED.h610Lanes,
  },
  {
    ...into(h610(wired(3, 4)), linked(3)),
    ...full(3.938),
    id: 'storage-link-h610-gen3',
    says: 'A gen 3 drive has all it can use on H610.',
    reason: 'gen 3 x4 at both ends',
    source: CITED.h610Lanes,
  },
  {
    ...into(h610(wired(3, 2)), linked(3)),
    ...less(1.969, 3.938),
    id: 'storage-link-h610-gen3-x2',
    says: 'Some small boards wire two lanes only, and a plain gen 3 drive feels it.',
    reason: 'gen 3 x2 = 1.969 GB/s of 3.938 GB/s',
    source: CITED.m2List,
  },
  {
    ...into([wired(3, 4, 'M2_2'), wired(4, 4)], linked(4)),
    ...full(7.877),
    id: 'storage-link-better-socket',
    says: 'Of two free sockets the drive takes the faster one.',
    reason: 'M2_1, gen 4 x4',
  },
  {
    ...into([wired(4, 4), wired(3, 4, 'M2_2')], linked(4), old),
    ...full(7.877),
    id: 'storage-link-old-drive-makes-room',
    says: 'The fitted gen 3 drive loses nothing in the gen 3 socket, so the gen 4 socket is for the new one.',
    tricky: true,
    reason: 'old drive in M2_2 at gen 3 x4, new drive in M2_1 at gen 4 x4',
  },
  {
    ...into([wired(4, 4), wired(3, 4, 'M2_2')], pcieDrive('new', { pcieGen: 4 }), [
      pcieDrive('old', { pcieGen: 4 }),
    ]),
    verdict: 'fits slower',
    id: 'storage-link-two-for-one-fast-socket',
    says: 'Two gen 4 drives share a board with one gen 4 socket: one of them runs at half its rate.',
    reason: 'gen 3 x4 gives 3.938 GB/s of 7.877 GB/s',
  },
  {
    ...into([socket('M2_1', { pcieGen: 4, sata: true })], m2Sata('new')),
    verdict: 'fits',
    id: 'storage-link-sata-has-none',
    says: 'A SATA drive in a gen 4 socket runs at its own 600 MB/s and loses nothing.',
    reason: 'SATA is wired; the lanes stay unused',
    source: CITED.m2Wiring,
  },
  {
    ...into([wired(3, 4)], linked(undefined)),
    verdict: "can't tell",
    id: 'storage-link-gen-unknown',
    says: 'Nobody wrote down the generation of the drive, so its loss in a gen 3 socket is open.',
    reason: 'generation of the drive not known',
    needs: ['pcieGen'],
  },
  {
    ...beside(card('x16'), sharing, old),
    id: 'storage-slot-halved-x16',
    says: 'The last free socket takes eight lanes from a card that uses sixteen.',
    verdict: 'fits slower',
    reason: 'slot x8 instead of x16: gen 3, 15.754 GB/s become 7.877 GB/s',
  },
  {
    ...beside(card('x8', { pcieLanes: 8 }), sharing, old),
    id: 'storage-slot-halved-x8',
    says: 'A card with eight lanes does not miss the other eight.',
    tricky: true,
    verdict: 'fits',
    reason: 'slot x8, card x8',
  },
  {
    ...beside(card('x16'), sharing, []),
    id: 'storage-slot-other-socket-free',
    says: 'As long as the other socket is free, the slot keeps its lanes.',
    tricky: true,
    verdict: 'fits',
    reason: 'M2_1 takes nothing from the slot',
  },
  {
    ...beside(card('x16'), onlySharing, []),
    id: 'storage-slot-only-sharing-socket',
    says: 'The only socket of the board is the one that halves the slot.',
    verdict: 'fits slower',
    reason: 'slot x8 instead of x16: gen 3, 15.754 GB/s become 7.877 GB/s',
  },
  {
    ...beside(card('x4', { pcieLanes: 4, pcieGen: 4 }), sharing, old),
    id: 'storage-slot-halved-x4',
    says: 'A cut-down card with four lanes keeps them.',
    verdict: 'fits',
    reason: 'slot x8, card x4',
  },
  {
    has: without('card', holding(b550(sharing, { slotLanesShared: 8 }), old)),
    add: [pcieDrive('new')],
    id: 'storage-slot-halved-empty',
    says: 'In an empty slot nothing is lost.',
    verdict: 'fits',
    reason: 'no card fitted',
    source: CITED.m2Sharing,
  },
  {
    has: holding(
      board('B450', { m2Sockets: sharing, sataPorts: 6, slotLanesShared: 8 }),
      old,
      cpu('Ryzen 2000G (Raven Ridge)', '2400G'),
      card('x16'),
    ),
    add: [pcieDrive('new')],
    id: 'storage-slot-halved-x8-processor',
    says: 'This processor gives the card eight lanes already, so the socket takes none of them.',
    tricky: true,
    verdict: 'fits',
    reason: 'card x16, processor x8, slot x8 beside the drive',
    source: CITED.m2Sharing,
  },
  {
    ...beside(card('x16'), sharing, old, { slotLanesShared: undefined }),
    id: 'storage-slot-share-unknown',
    says: 'The manual says that the socket shares with the slot, and nobody wrote down what is left.',
    verdict: "can't tell",
    reason: 'lanes left to the slot not known',
    needs: ['slotLanesShared'],
  },
])
