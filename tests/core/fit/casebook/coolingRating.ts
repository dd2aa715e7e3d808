import type { Cooler, Part } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, coolerOf, cpu, loadPoint, machine } from './parts.ts'
import { CITED } from './sources.ts'

// No load point, or no published maximum: the rating of the cooler against the sustained limit.

const rated = (ratedW: number | undefined, id = `rated ${ratedW}`) => coolerOf(id, { ratedW })
const i5of10 = cpu('10th (Comet Lake)', 'i5', { limitPowerW: 65 })
const zen3 = (limitPowerW: number | undefined) => cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5', { limitPowerW })
const i5of6 = cpu('6th (Skylake)', 'i5', { limitPowerW: 81 })
const i7of6 = cpu('6th (Skylake)', 'i7', { limitPowerW: 114 })

const stays = (fitted: Cooler, next: Part): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(board('Z490'), i5of10, fitted),
  add: [next],
  source: CITED.coolerRating,
})
const comes = (limitPowerW: number | undefined, next: Cooler): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(board('B550'), zen3(limitPowerW)),
  add: [next],
  source: CITED.coolerRating,
})
/** The 6th generation has published case temperatures and no published junction maximum. */
const on6th = (fitted: Cooler): Pick<Draft, 'has' | 'claims' | 'add' | 'source'> => ({
  has: machine(board('Z170'), i5of6, fitted),
  claims: [loadPoint(70, 30, 80)],
  add: [i7of6],
  source: CITED.junction,
})

export const coolingRating = chapter('cooling', 'cooling', [
  {
    ...stays(rated(141), cpu('10th (Comet Lake)', 'i7', { limitPowerW: 142 })),
    id: 'cooling-rating-short',
    says: 'The fitted cooler is rated one watt short of the new processor.',
    verdict: 'fits slower',
    reason: 'rated 141 W against 142 W',
    values: { ratedW: 141 },
  },
  {
    ...stays(rated(142), cpu('10th (Comet Lake)', 'i7', { limitPowerW: 142 })),
    id: 'cooling-rating-at',
    says: 'Rated exactly what the processor may draw.',
    verdict: 'fits',
    reason: 'rated 142 W against 142 W',
    values: { ratedW: 142 },
  },
  {
    ...stays(rated(143), cpu('10th (Comet Lake)', 'i7', { limitPowerW: 142 })),
    id: 'cooling-rating-over',
    says: 'Rated one watt more than needed.',
    verdict: 'fits',
    reason: 'rated 143 W against 142 W',
    values: { ratedW: 143 },
  },
  {
    ...stays(rated(undefined), cpu('10th (Comet Lake)', 'i7', { limitPowerW: 142 })),
    id: 'cooling-rating-none-and-no-point',
    says: 'No rating of the fitted cooler, and nobody read a thermometer.',
    verdict: "can't tell",
    reason: 'neither a load point of this machine nor a rating of its cooler',
    needs: ['coolingLoad'],
  },
  {
    ...stays(rated(125), cpu('10th (Comet Lake)', 'i7', { limitPowerW: 229 })),
    id: 'cooling-rating-125-on-the-box',
    says: 'Both cartons say 125 W, and the processor may draw 229 W.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'rated 125 W against PL2 229 W',
    values: { ratedW: 125 },
    source: CITED.turbo,
  },
  {
    ...stays(rated(150), cpu('10th (Comet Lake)', 'i9', { limitPowerW: 224 })),
    id: 'cooling-rating-65-on-the-box',
    says: 'A processor with 65 W on the box asks more than a cooler of 150 W holds.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'rated 150 W against PL2 224 W',
    values: { ratedW: 150 },
    source: CITED.turbo,
  },
  {
    ...comes(88, rated(87)),
    id: 'cooling-rating-new-cooler-short',
    says: 'A new cooler that is rated one watt short works and holds the processor back.',
    verdict: 'fits slower',
    reason: 'rated 87 W against 88 W',
    values: { ratedW: 87 },
  },
  {
    ...comes(88, rated(88)),
    id: 'cooling-rating-new-cooler-at',
    says: 'A new cooler rated exactly the limit.',
    verdict: 'fits',
    reason: 'rated 88 W against 88 W',
    values: { ratedW: 88 },
  },
  {
    ...comes(88, rated(65)),
    id: 'cooling-rating-new-cooler-65',
    says: 'A cooler for 65 W on a processor with 65 W on the box.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'rated 65 W against PPT 88 W (1.35 x 65)',
    values: { ratedW: 65 },
    source: CITED.turbo,
  },
  {
    ...comes(142, rated(120)),
    id: 'cooling-rating-new-cooler-120',
    says: 'A cooler for 120 W is not enough for 105 W on the box.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'rated 120 W against PPT 142 W (1.35 x 105)',
    values: { ratedW: 120 },
    source: CITED.turbo,
  },
  {
    ...comes(88, rated(undefined)),
    id: 'cooling-rating-new-cooler-unknown',
    says: 'A new cooler without a rating; what it holds cannot be measured before it is in.',
    verdict: "can't tell",
    reason: 'rating of the new cooler not known, 88 W to carry',
    needs: ['ratedW'],
  },
  {
    ...comes(undefined, rated(200)),
    id: 'cooling-rating-limit-unknown',
    says: 'A well rated new cooler on a processor whose limit is not on record.',
    verdict: "can't tell",
    reason: 'rated 200 W against an unknown limit',
    needs: ['limitPowerW'],
  },
  {
    ...comes(88, coolerOf('unlisted socket', { sockets: undefined, kitSockets: undefined, ratedW: 65 })),
    id: 'cooling-rating-short-and-mount-unknown',
    says: 'Weak is known, the mount is not: what is not known weighs more.',
    tricky: true,
    verdict: "can't tell",
    reason: 'sockets of the cooler not known; rated 65 W against 88 W',
    needs: ['sockets'],
    source: CITED.mounts,
  },
  {
    ...on6th(rated(114)),
    id: 'cooling-no-maximum-rating-at',
    says: 'Without a published maximum the load point says nothing, and the rating is enough.',
    tricky: true,
    verdict: 'fits',
    reason: 'no junction maximum published; rated 114 W against 114 W',
    values: { ratedW: 114 },
  },
  {
    ...on6th(rated(113)),
    id: 'cooling-no-maximum-rating-short',
    says: 'Without a published maximum 87 °C are neither good nor bad, and the rating is one watt short.',
    tricky: true,
    verdict: 'fits slower',
    reason: '30 + 0.5 x 114 = 87 °C of an unknown maximum; rated 113 W against 114 W',
    values: { ratedW: 113 },
  },
  {
    ...on6th(rated(undefined)),
    id: 'cooling-no-maximum-no-rating',
    says: 'A load point, no published maximum and no rating.',
    tricky: true,
    verdict: "can't tell",
    reason: 'no junction maximum published, rating of the cooler not known',
    needs: ['ratedW'],
  },
  {
    id: 'cooling-7th-has-a-maximum',
    says: 'The generation after it in the same socket has a published maximum, so the load point counts.',
    tricky: true,
    has: machine(board('Z170'), i5of6, rated(100)),
    claims: [loadPoint(70, 30, 80)],
    add: [cpu('7th (Kaby Lake)', 'i7', { limitPowerW: 114 })],
    verdict: 'fits',
    reason: '30 + 0.5 x 114 = 87.0 °C, up to 100 - 5 = 95 °C, though rated 100 W',
    values: { predictedC: 87, maxC: 100 },
    source: CITED.junction,
  },
])
