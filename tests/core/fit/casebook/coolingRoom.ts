import type { Cooler, Part } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, chassis, coolerOf, cpu, kit, machine } from './parts.ts'
import { CITED } from './sources.ts'

const b550 = board('B550')
const zen3 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const room = (coolerRoomMm: number | undefined) => chassis(`cooler room ${coolerRoomMm}`, { coolerRoomMm })
const tall = (heightMm: number | undefined) => coolerOf(`${heightMm} mm`, { heightMm })
const modules = (heightMm: number | undefined) => kit('DDR4', 2, 16, 3200, { heightMm })

const into = (
  coolerRoomMm: number | undefined,
  heightMm: number | undefined,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(b550, zen3, room(coolerRoomMm)),
  add: [tall(heightMm)],
  source: CITED.coolerRoom,
})

/** A cooler of 155 mm whose fan leaves 40 mm for the modules. */
const overhangs: Cooler = coolerOf('overhanging', { heightMm: 155, memoryRoomMm: 40 })
const over = (moduleMm: number | undefined, coolerRoomMm: number): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(b550, zen3, room(coolerRoomMm), modules(moduleMm)),
  add: [overhangs],
  source: CITED.moduleHeight,
})
/** The overhanging cooler is fitted and the memory changes. */
const under = (
  coolerRoomMm: number,
  next: Part,
  fitted: Cooler = overhangs,
): Pick<Draft, 'has' | 'add' | 'out' | 'source'> => ({
  has: machine(b550, zen3, room(coolerRoomMm), fitted, kit('DDR4', 2, 8, 2666, { heightMm: 31.25 })),
  add: [next],
  out: ['MEM DDR4 2x8 2666'],
  source: CITED.moduleHeight,
})

export const coolingRoom = chapter('cooling', 'cooling', [
  {
    ...into(160, 159),
    id: 'cooling-height-under',
    says: 'One millimetre is left to the side panel.',
    verdict: 'fits',
    reason: '159 mm in 160 mm',
    values: { coolerMm: 159, roomMm: 160 },
  },
  {
    ...into(160, 160),
    id: 'cooling-height-at',
    says: 'Exactly the free height is enough.',
    verdict: 'fits',
    reason: '160 mm in 160 mm',
    values: { coolerMm: 160, roomMm: 160 },
  },
  {
    ...into(160, 161),
    id: 'cooling-height-over',
    says: 'One millimetre too high keeps the panel from closing.',
    verdict: 'does not fit',
    reason: '161 mm in 160 mm',
    values: { coolerMm: 161, roomMm: 160 },
  },
  {
    ...into(160, undefined),
    id: 'cooling-height-unknown',
    says: 'A cooler of unknown height is not promised.',
    verdict: "can't tell",
    reason: 'height of the cooler not known, 160 mm free',
    needs: ['heightMm'],
  },
  {
    ...into(undefined, 150),
    id: 'cooling-height-room-unknown',
    says: 'Nobody measured how high a cooler may be.',
    verdict: "can't tell",
    reason: '150 mm in an unknown height',
    needs: ['coolerRoomMm'],
  },
  {
    ...into(165, 160),
    id: 'cooling-height-tape-shorter',
    says: 'The sheet says 165 mm, the tape 158, because of a fan in the side panel.',
    tricky: true,
    claims: [{ key: 'coolerRoomMm', value: 158, source: 'measured' }],
    verdict: 'does not fit',
    reason: '160 mm in the measured 158 mm',
    values: { coolerMm: 160, roomMm: 158 },
    source: CITED.tape,
  },
  {
    id: 'cooling-height-new-case',
    says: 'The cooler stays and is too high for the new case.',
    has: machine(b550, zen3, room(170), tall(158)),
    add: [chassis('slim', { coolerRoomMm: 150 })],
    verdict: 'does not fit',
    reason: '158 mm in 150 mm of the new case',
    values: { coolerMm: 158, roomMm: 150 },
    source: CITED.coolerRoom,
  },
  {
    id: 'cooling-height-new-case-and-cooler',
    says: 'A low cooler comes with the low case.',
    has: machine(b550, zen3, room(170), tall(158)),
    add: [chassis('slim', { coolerRoomMm: 70 }), tall(66)],
    verdict: 'fits',
    reason: '66 mm in 70 mm; the one of 158 mm goes',
    values: { coolerMm: 66, roomMm: 70 },
    source: CITED.coolerRoom,
  },
  {
    ...over(40, 155),
    id: 'cooling-fan-modules-at',
    says: 'Modules that just reach the fan.',
    verdict: 'fits',
    reason: '40 mm under 40 mm; 155 mm in 155 mm',
    values: { coolerMm: 155, roomMm: 155 },
  },
  {
    ...over(31.25, 155),
    id: 'cooling-fan-bare-modules',
    says: 'Bare modules have the height of the standard and room to spare.',
    verdict: 'fits',
    reason: '31.25 mm under 40 mm',
  },
  {
    ...over(44, 160),
    id: 'cooling-fan-up-under',
    says: 'The fan moves up by 4 mm, and the panel still closes.',
    tricky: true,
    verdict: 'fits after work',
    reason: '44 - 40 = 4 mm; 155 + 4 = 159 mm in 160 mm',
    values: { needMm: 159, roomMm: 160 },
  },
  {
    ...over(44, 159),
    id: 'cooling-fan-up-at',
    says: 'The raised fan just touches what is free.',
    verdict: 'fits after work',
    reason: '155 + 4 = 159 mm in 159 mm',
    values: { needMm: 159, roomMm: 159 },
  },
  {
    ...over(44, 158),
    id: 'cooling-fan-up-over',
    says: 'The cooler has its height and the raised fan has not.',
    tricky: true,
    verdict: 'does not fit',
    reason: '155 + 4 = 159 mm in 158 mm; the cooler alone has 155 mm',
    values: { needMm: 159, roomMm: 158 },
  },
  {
    ...over(40.5, 155),
    id: 'cooling-fan-half-millimetre',
    says: 'Half a millimetre over the room counts in full where nothing is left above.',
    tricky: true,
    verdict: 'does not fit',
    reason: '40.5 - 40 = 0.5 mm; 155 + 0.5 = 155.5 mm in 155 mm',
    values: { needMm: 155.5, roomMm: 155 },
  },
  {
    ...over(undefined, 170),
    id: 'cooling-fan-modules-unknown',
    says: 'A fan hangs over modules whose height nobody wrote down.',
    verdict: "can't tell",
    reason: 'height of the modules not known, 40 mm under the fan',
    needs: ['heightMm'],
  },
  {
    id: 'cooling-fan-none-overhangs',
    says: 'Where no fan hangs over the memory nobody asks how high it is.',
    tricky: true,
    has: machine(b550, zen3, room(160), modules(undefined)),
    add: [tall(158)],
    verdict: 'fits',
    reason: '158 mm in 160 mm; nothing overhangs',
    values: { coolerMm: 158, roomMm: 160 },
    source: CITED.moduleHeight,
  },
  {
    ...under(160, modules(45)),
    id: 'cooling-memory-under-the-fan',
    says: 'New memory with high spreaders asks the fitted fan to move.',
    tricky: true,
    verdict: 'fits after work',
    reason: '45 - 40 = 5 mm; 155 + 5 = 160 mm in 160 mm',
    values: { needMm: 160, roomMm: 160 },
  },
  {
    ...under(160, modules(46)),
    id: 'cooling-memory-too-high',
    says: 'New memory that is higher than the fan can give way.',
    tricky: true,
    verdict: 'does not fit',
    reason: '46 - 40 = 6 mm; 155 + 6 = 161 mm in 160 mm',
    values: { needMm: 161, roomMm: 160 },
  },
  {
    ...under(160, modules(undefined)),
    id: 'cooling-memory-height-unknown',
    says: 'New memory of unknown height under a fan.',
    verdict: "can't tell",
    reason: 'height of the new modules not known, 40 mm under the fan',
    needs: ['heightMm'],
  },
  {
    ...under(160, modules(60), tall(155)),
    id: 'cooling-memory-no-fan-over-it',
    says: 'Very high modules beside a cooler that stays clear of them.',
    verdict: 'fits',
    reason: 'nothing overhangs',
  },
  {
    id: 'cooling-memory-second-kit',
    says: 'A second kit with low spreaders joins bare modules under the fan.',
    has: machine(b550, zen3, room(155), overhangs, kit('DDR4', 2, 8, 2666, { heightMm: 31.25 })),
    add: [kit('DDR4', 2, 8, 2666, { id: 'MEM second', heightMm: 39 })],
    verdict: 'fits',
    reason: '39 mm is the highest, 40 mm under the fan',
    source: CITED.moduleHeight,
  },
])
