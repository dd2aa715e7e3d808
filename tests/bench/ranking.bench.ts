import { bench, describe } from 'vitest'
import type { Part } from '../../src/core/part.ts'
import { rank } from '../../src/core/ranking/rank.ts'
import { enumerate, type PlainTime } from '../core/ranking/enumerate.ts'
import {
  card,
  cooler,
  demanding,
  input,
  item,
  kit,
  knowing,
  pcCase,
  processor,
  question,
  smoothMax,
  supply,
} from '../core/ranking/smallShop.ts'

/** A shelf of 40 invented items: 12 cards, 6 processors, 6 kits, 6 supplies, 5 cases, 5 coolers. */
const list = <P extends Part>(n: number, make: (i: number) => P): P[] =>
  Array.from({ length: n }, (_, i) => make(i + 1))
const parts: readonly Part[] = [
  ...list(12, (i) => card(`CARD-${i}`, { boardPowerW: 60 + 25 * i, lengthMm: 220 + 12 * i })),
  ...list(6, (i) => processor(`CPU-${i}`, { limitPowerW: 50 + 15 * i })),
  ...list(6, (i) => kit(`KIT-${i}`, { moduleGB: 4 * i })),
  ...list(6, (i) => supply(`SUPPLY-${i}`, 350 + 75 * i)),
  ...list(5, (i) => pcCase(`CASE-${i}`, 290 + 20 * i, 145 + 8 * i)),
  ...list(5, (i) => cooler(`COOLER-${i}`, 60 + 25 * i, 140 + 8 * i)),
]
const number = (id: string) => Number(id.slice(id.indexOf('-') + 1))
const time: PlainTime = (titleId, cpu, cardId, totalGB) =>
  smoothMax(
    (14 - number(cpu)) * (totalGB < 16 ? 1.2 : 1),
    (20 - number(cardId)) * (1 + 0.1 * number(titleId)),
  )
const titles = list(5, (i) => card(`title-${i}`)).map(({ id }) => ({
  titleId: id,
  settingId: 's',
  weight: 1,
}))
const shop = input({
  question: question({ wanted: titles, budgetMinor: 40_000 }),
  parts,
  shelf: parts.map((p, i) => item(p.id, 1000 + 137 * ((i * 29) % 97))),
  model: knowing((t, f) => time(t, f.processorId, f.cardId, f.memory.totalGB)),
  judge: demanding,
})

/** One pass of the plain enumeration takes seconds, so few are made; read the ratio. */
const few = { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 }

describe('40 shelf items, 5 titles', () => {
  bench('rank', () => void rank(shop), { ...few, iterations: 20 })
  bench('every pair with every set of companions', () => void enumerate(shop, time, 0.01), few)
})
