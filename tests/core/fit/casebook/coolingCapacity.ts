import type { Board, Processor } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, coolerOf, cpu, loadPoint, machine } from './parts.ts'
import { CITED } from './sources.ts'

// The machine's own load point foretells: room + (load - room) / power x limit of the new processor. It fits up to
// 5 K below the published maximum.

type Point = readonly [loadC: number, roomC: number, powerW: number]

/** An entry-level tower cooler: 45 K over the room at 65 W, rated 95 W on its carton. */
const ENTRY: Point = [75, 30, 65]
/** The example of the standard: 37 K at 65 W. */
const STANDARD: Point = [72, 35, 65]
/** 40 K at 80 W, half a kelvin a watt. */
const HALF: Point = [70, 30, 80]
/** 44 K at 66 W, two thirds of a kelvin a watt. */
const TWO_THIRDS: Point = [74, 30, 66]

const tower = coolerOf('entry tower', { ratedW: 95 })

const judge = (
  main: Board,
  [loadC, roomC, powerW]: Point,
  old: Processor,
  next: Processor,
): Pick<Draft, 'has' | 'claims' | 'add' | 'source'> => ({
  has: machine(main, old, tower),
  claims: [loadPoint(loadC, roomC, powerW)],
  add: [next],
  source: CITED.junction,
})

const b550 = board('B550')
const zen2 = (limitPowerW: number, processorClass = 'Ryzen 7') =>
  cpu('Ryzen 3000 (Zen 2)', processorClass, { limitPowerW })
/** Published maximum 95 °C. */
const onZen2 = (point: Point, limitPowerW: number) =>
  judge(b550, point, zen2(point[2], 'Ryzen 5'), zen2(limitPowerW))
/** Published maximum 90 °C. */
const onZen3 = (point: Point, limitPowerW: number) =>
  judge(b550, point, zen2(point[2], 'Ryzen 5'), cpu('Ryzen 5000 (Zen 3)', 'Ryzen 7', { limitPowerW }))
/** Published maximum 100 °C. */
const on10th = (point: Point, limitPowerW: number) =>
  judge(
    board('Z490'),
    point,
    cpu('10th (Comet Lake)', 'i5', { limitPowerW: point[2] }),
    cpu('10th (Comet Lake)', 'i7', { limitPowerW }),
  )
/** Published maximum 105 °C. */
const onUltra = (point: Point, limitPowerW: number) =>
  judge(
    board('B860'),
    point,
    cpu('Core Ultra 200S (Arrow Lake)', 'Ultra 5', { limitPowerW: point[2] }),
    cpu('Core Ultra 200S (Arrow Lake)', 'Ultra 7', { limitPowerW }),
  )

export const coolingCapacity = chapter('cooling', 'cooling', [
  {
    ...onZen2(ENTRY, 65),
    id: 'cooling-entry-65',
    says: 'A processor that draws what the old one drew is not hotter than it.',
    verdict: 'fits',
    reason: '65 W as before, near 75 °C in a room of 30 °C',
    source: CITED.towerCooler,
  },
  {
    ...onZen2(ENTRY, 86),
    id: 'cooling-entry-86',
    says: 'The entry-level tower has a little left above its 65 W.',
    verdict: 'fits',
    reason: '30 + 45/65 x 86 = 89.5 °C, up to 95 - 5 = 90 °C',
    values: { predictedC: 89.5, maxC: 95 },
    source: CITED.towerCooler,
  },
  {
    ...onZen2(ENTRY, 87),
    id: 'cooling-entry-87',
    says: 'One watt more is over the margin.',
    verdict: 'fits slower',
    reason: '30 + 45/65 x 87 = 90.2 °C, up to 95 - 5 = 90 °C',
    values: { predictedC: 90.2, maxC: 95 },
    source: CITED.towerCooler,
  },
  {
    ...onZen2(ENTRY, 88),
    id: 'cooling-entry-88',
    says: 'Another processor of 65 W on the box is allowed 88 W, which the cooler rated 95 W does not hold.',
    tricky: true,
    verdict: 'fits slower',
    reason: '30 + 45/65 x 88 = 90.9 °C, up to 90 °C; with 65 W it would be 75 °C',
    values: { predictedC: 90.9, maxC: 95 },
    source: CITED.towerCooler,
  },
  {
    ...onZen2(ENTRY, 105),
    id: 'cooling-entry-105',
    says: 'At 105 W the same tower runs into the limit.',
    verdict: 'fits slower',
    reason: '30 + 45/65 x 105 = 102.7 °C, up to 90 °C',
    values: { predictedC: 102.7, maxC: 95 },
    source: CITED.towerCooler,
  },
  {
    ...onZen2(ENTRY, 142),
    id: 'cooling-entry-142',
    says: 'A processor of 105 W on the box is allowed 142 W: far too much for this tower, and it still runs.',
    tricky: true,
    verdict: 'fits slower',
    reason: '30 + 45/65 x 142 = 128.3 °C, up to 90 °C: it throttles',
    values: { predictedC: 128.3, maxC: 95 },
    source: CITED.towerCooler,
  },
  {
    ...on10th(ENTRY, 88),
    id: 'cooling-entry-88-max-100',
    says: 'The same 88 W behind the same tower are within the maximum of another maker.',
    tricky: true,
    verdict: 'fits',
    reason: '30 + 45/65 x 88 = 90.9 °C, up to 100 - 5 = 95 °C',
    values: { predictedC: 90.9, maxC: 100 },
    source: CITED.towerCooler,
  },
  {
    ...on10th(ENTRY, 93),
    id: 'cooling-entry-93-max-100',
    says: 'The last watt that stays within the margin.',
    verdict: 'fits',
    reason: '30 + 45/65 x 93 = 94.4 °C, up to 95 °C',
    values: { predictedC: 94.4, maxC: 100 },
    source: CITED.towerCooler,
  },
  {
    ...on10th(ENTRY, 94),
    id: 'cooling-entry-94-max-100',
    says: 'Within the maximum and over the margin.',
    tricky: true,
    verdict: 'fits slower',
    reason: '30 + 45/65 x 94 = 95.1 °C, up to 95 °C',
    values: { predictedC: 95.1, maxC: 100 },
    source: CITED.towerCooler,
  },
  {
    ...onUltra(ENTRY, 101),
    id: 'cooling-entry-101-max-105',
    says: 'A maximum of 105 °C leaves more room.',
    verdict: 'fits',
    reason: '30 + 45/65 x 101 = 99.9 °C, up to 105 - 5 = 100 °C',
    values: { predictedC: 99.9, maxC: 105 },
    source: CITED.towerCooler,
  },
  {
    ...onUltra(ENTRY, 102),
    id: 'cooling-entry-102-max-105',
    says: 'One watt more is over the margin here too.',
    verdict: 'fits slower',
    reason: '30 + 45/65 x 102 = 100.6 °C, up to 100 °C',
    values: { predictedC: 100.6, maxC: 105 },
    source: CITED.towerCooler,
  },
  {
    ...on10th(STANDARD, 105),
    id: 'cooling-theta-example-under',
    says: 'The example of the standard, 65 W at 72 °C in 35 °C, carried on to 105 W.',
    verdict: 'fits',
    reason: '(72 - 35) / 65 = 0.5692 K/W; 35 + 37/65 x 105 = 94.8 °C, up to 95 °C',
    values: { predictedC: 94.8, maxC: 100 },
    source: CITED.theta,
  },
  {
    ...on10th(STANDARD, 106),
    id: 'cooling-theta-example-over',
    says: 'The example of the standard, carried on to 106 W.',
    verdict: 'fits slower',
    reason: '35 + 37/65 x 106 = 95.3 °C, up to 95 °C',
    values: { predictedC: 95.3, maxC: 100 },
    source: CITED.theta,
  },
  {
    ...onZen2(STANDARD, 96),
    id: 'cooling-theta-example-max-95-under',
    says: 'The example of the standard behind a processor of 95 °C.',
    verdict: 'fits',
    reason: '35 + 37/65 x 96 = 89.6 °C, up to 90 °C',
    values: { predictedC: 89.6, maxC: 95 },
    source: CITED.theta,
  },
  {
    ...onZen2(STANDARD, 97),
    id: 'cooling-theta-example-max-95-over',
    says: 'One watt more behind a processor of 95 °C.',
    verdict: 'fits slower',
    reason: '35 + 37/65 x 97 = 90.2 °C, up to 90 °C',
    values: { predictedC: 90.2, maxC: 95 },
    source: CITED.theta,
  },
  {
    ...on10th(HALF, 129),
    id: 'cooling-max-100-under',
    says: 'Half a kelvin below the margin.',
    verdict: 'fits',
    reason: '30 + 0.5 x 129 = 94.5 °C, up to 95 °C',
    values: { predictedC: 94.5, maxC: 100 },
  },
  {
    ...on10th(HALF, 130),
    id: 'cooling-max-100-at',
    says: 'Exactly at the margin is enough.',
    verdict: 'fits',
    reason: '30 + 0.5 x 130 = 95.0 °C, up to 95 °C',
    values: { predictedC: 95, maxC: 100 },
  },
  {
    ...on10th(HALF, 131),
    id: 'cooling-max-100-over',
    says: 'Half a kelvin over the margin throttles on a warm day.',
    verdict: 'fits slower',
    reason: '30 + 0.5 x 131 = 95.5 °C, up to 95 °C',
    values: { predictedC: 95.5, maxC: 100 },
  },
  {
    ...onZen2(HALF, 120),
    id: 'cooling-max-95-at',
    says: 'At the margin of a processor of 95 °C.',
    verdict: 'fits',
    reason: '30 + 0.5 x 120 = 90.0 °C, up to 90 °C',
    values: { predictedC: 90, maxC: 95 },
  },
  {
    ...onZen2(HALF, 121),
    id: 'cooling-max-95-over',
    says: 'Over the margin of a processor of 95 °C.',
    verdict: 'fits slower',
    reason: '30 + 0.5 x 121 = 90.5 °C, up to 90 °C',
    values: { predictedC: 90.5, maxC: 95 },
  },
  {
    ...onZen3(HALF, 110),
    id: 'cooling-max-90-at',
    says: 'At the margin of a processor of 90 °C.',
    verdict: 'fits',
    reason: '30 + 0.5 x 110 = 85.0 °C, up to 90 - 5 = 85 °C',
    values: { predictedC: 85, maxC: 90 },
  },
  {
    ...onZen3(HALF, 111),
    id: 'cooling-max-90-over',
    says: 'Not every processor of this socket is allowed 95 °C.',
    tricky: true,
    verdict: 'fits slower',
    reason: '30 + 0.5 x 111 = 85.5 °C, up to 85 °C',
    values: { predictedC: 85.5, maxC: 90 },
  },
  {
    ...onUltra(HALF, 140),
    id: 'cooling-max-105-at',
    says: 'At the margin of a processor of 105 °C.',
    verdict: 'fits',
    reason: '30 + 0.5 x 140 = 100.0 °C, up to 100 °C',
    values: { predictedC: 100, maxC: 105 },
  },
  {
    ...onUltra(HALF, 141),
    id: 'cooling-max-105-over',
    says: 'Over the margin of a processor of 105 °C.',
    verdict: 'fits slower',
    reason: '30 + 0.5 x 141 = 100.5 °C, up to 100 °C',
    values: { predictedC: 100.5, maxC: 105 },
  },
  {
    ...judge(b550, TWO_THIRDS, zen2(66), cpu('Ryzen 5000G, 5500, 5700 (Zen 3)', '5600G')),
    id: 'cooling-88-w-with-graphics-unit',
    says: 'The part with a graphics unit may reach 95 °C, and 88 W are within that.',
    tricky: true,
    verdict: 'fits',
    reason: '30 + 44/66 x 88 = 88.7 °C, up to 95 - 5 = 90 °C',
    values: { predictedC: 88.7, maxC: 95 },
  },
  {
    ...onZen3(TWO_THIRDS, 88),
    id: 'cooling-88-w-without-graphics-unit',
    says: 'The part without one, with the same 88 W in the same socket, may reach 90 °C only.',
    tricky: true,
    verdict: 'fits slower',
    reason: '30 + 44/66 x 88 = 88.7 °C, up to 90 - 5 = 85 °C',
    values: { predictedC: 88.7, maxC: 90 },
  },
])
