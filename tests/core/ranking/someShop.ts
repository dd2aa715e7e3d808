import fc from 'fast-check'
import type { Part } from '../../../src/core/part.ts'
import { WISHES } from '../../../src/core/question.ts'
import type { RankInput } from '../../../src/core/ranking/rank.ts'
import { CONDITIONS } from '../../../src/core/shop.ts'
import type { PlainTime } from './enumerate.ts'
import {
  card,
  cooler,
  demanding,
  fan,
  input,
  item,
  kit,
  knowing,
  machine,
  pcCase,
  processor,
  question,
  smoothMax,
  supply,
  TODAY,
} from './smallShop.ts'

export type SomeShop = { readonly input: RankInput; readonly time: PlainTime }
export const END_SD = 0.03

const from = <T>(...values: T[]) => fc.constantFrom(...values)
const upTo = (n: number, one: fc.Arbitrary<(id: string) => Part>, name: string) =>
  fc.array(one, { maxLength: n }).map((makers) => makers.map((make, i) => make(`${name}-${i + 1}`)))

const somePart = {
  processors: upTo(
    2,
    fc
      .record({ limitPowerW: from(65, 120), cores: from(6, 6, undefined) })
      .map((o) => (id: string) => processor(id, o)),
    'CPU',
  ),
  cards: upTo(
    3,
    fc
      .record({ boardPowerW: from(60, 120, 300), lengthMm: from(250, 330), thicknessMm: from(40, 60) })
      .map((o) => (id: string) => card(id, o)),
    'CARD',
  ),
  kits: upTo(
    2,
    fc.record({ modules: from(1, 2, 4), rateMts: from(2666, 3200) }).map((o) => (id: string) => kit(id, o)),
    'KIT',
  ),
  supplies: upTo(
    2,
    from(350, 500, 800).map((w) => (id: string) => supply(id, w)),
    'SUPPLY',
  ),
  cases: upTo(
    2,
    fc.tuple(from(280, 400), from(145, 168, 180), from(2, 3)).map(
      ([a, b, c]) =>
        (id: string) =>
          pcCase(id, a, b, c),
    ),
    'CASE',
  ),
  coolers: upTo(
    2,
    fc.tuple(from(65, 150), from(150, 165, 170)).map(
      ([a, b]) =>
        (id: string) =>
          cooler(id, a, b),
    ),
    'COOLER',
  ),
  fans: upTo(
    1,
    from(80, 120).map((mm) => (id: string) => fan(id, mm)),
    'FAN',
  ),
}

/** Small invented shops with prices that often tie, copies, used items, wishes, credits, gaps in the runs. */
export const someShop: fc.Arbitrary<SomeShop> = fc
  .record({ ...somePart, secondKit: fc.boolean(), fittedOnShelf: fc.boolean() })
  .chain(({ secondKit, fittedOnShelf, ...kinds }) => {
    const parts = [...Object.values(kinds).flat(), ...TODAY]
    const stocked = [
      ...Object.values(kinds).flat(),
      ...(fittedOnShelf ? TODAY.filter((p) => p.id === 'CARD-0' || p.id === 'KIT-0') : []),
    ]
    return fc
      .record({
        shelf: fc
          .tuple(
            ...stocked.map((part) =>
              fc
                .array(
                  fc.record({
                    priceMinor: from(0, 1000, 2000, 5000, 12_345),
                    quantity: from(1, 1, 1, 2, 0),
                    condition: fc.constantFrom(...CONDITIONS),
                    warrantyMonths: from(12, 12, 12, 0, undefined),
                  }),
                  { minLength: 1, maxLength: 2 },
                )
                .map((items) =>
                  items.map((over, i) =>
                    item(part.id, over.priceMinor, { ...over, id: `${part.id}${'xy'[i]}` }),
                  ),
                ),
            ),
          )
          .map((lists) => lists.flat()),
        wishes: fc.oneof(fc.constant([]), fc.subarray([...WISHES], { maxLength: 2 })),
        weights: fc.tuple(from(1, 2), from(1, 3)),
        budgetMinor: from(undefined, 0, 4000, 20_000),
        refreshHz: from(undefined, 60, 144),
        credits: fc.array(
          fc.record({
            partId: from('CARD-0', 'CPU-0', 'SUPPLY-0', 'CASE-0', 'KIT-0'),
            creditMinor: from(0, 500, 4000),
          }),
          { maxLength: 3 },
        ),
        labour: fc.tuple(from(0, 1500), from(0, 700), from(0, 300)),
        cpuMs: fc.array(from(6, 8, 10, 14, 20), { minLength: 3, maxLength: 3 }),
        cardMs: fc.array(from(5, 8, 12, 16, 20), { minLength: 4, maxLength: 4 }),
        unrun: fc.subarray(
          [
            'winter CARD-1',
            'winter CARD-2',
            'harbor CARD-2',
            'winter CPU-1',
            'harbor CARD-3',
            'winter CARD-3',
          ],
          { minLength: 2 },
        ),
        smallestGainPct: from(0, 5, 20),
      })
      .map((given) => {
        const time: PlainTime = (titleId, cpu, cardId, totalGB) => {
          if (given.unrun.includes(`${titleId} ${cardId}`) || given.unrun.includes(`${titleId} ${cpu}`))
            return undefined
          const place = (id: string) => Number(id.at(-1))
          const a = (given.cpuMs[place(cpu)] ?? 10) * (totalGB > 16 ? 0.9 : totalGB < 16 ? 1.2 : 1)
          return smoothMax(a, (given.cardMs[place(cardId)] ?? 10) * (titleId === 'winter' ? 1.3 : 1))
        }
        const [opening, fitCard, removing] = given.labour
        const base = input({})
        return {
          time,
          input: input({
            machine: machine(secondKit ? [...TODAY, kit('KIT-00')] : TODAY),
            parts,
            shelf: given.shelf,
            question: question({
              wishes: given.wishes,
              wanted: [
                { titleId: 'harbor', settingId: 's', weight: given.weights[0] },
                { titleId: 'winter', settingId: 's', weight: given.weights[1] },
              ],
              budgetMinor: given.budgetMinor,
              display: { refreshHz: given.refreshHz },
            }),
            work: [
              { work: 'opening', minutes: 10, priceMinor: opening },
              { work: 'fit card', minutes: 10, priceMinor: fitCard },
              { work: 'fit supply', minutes: 10, priceMinor: 900 },
              { work: 'remove old modules', minutes: 10, priceMinor: removing },
            ],
            tradeIns: [
              ...new Map(given.credits.map((c) => [c.partId, { ...c, at: '2026-01-01T00:00:00Z' }])).values(),
            ],
            policy: { ...base.policy, smallestGainPct: given.smallestGainPct },
            model: knowing((t, f) => time(t, f.processorId, f.cardId, f.memory.totalGB), END_SD),
            judge: demanding,
          }),
        }
      })
  })
