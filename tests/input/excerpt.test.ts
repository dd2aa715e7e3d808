import fc from 'fast-check'
import { expect, test } from 'vitest'
import { excerptOf, fitModel, MODEL_NAME, modelOfExcerpt } from '../../src/core/gain/model/index.ts'
import { readExcerpt } from '../../src/input/excerpt.ts'
import { drawShop } from '../core/gain/model/drawn.ts'
import { ask } from '../core/gain/model/small.ts'
import { runs } from '../runs.ts'

const shop = drawShop(5, { processors: 5, cards: 6, titles: 4, runs: 80 })
const partIds = [...shop.processors, ...shop.cards]
const wanted = shop.titles.map(({ id }) => ({ titleId: id, settingId: '1080-high' }))
const text = JSON.stringify(excerptOf(fitModel(shop.data), { wanted, partIds }))
const asks = shop.titles.flatMap(({ id }) =>
  shop.cards.map((card) =>
    ask(id, shop.fitted('CPU-002', 'CARD-001', 1), shop.fitted('CPU-003', card), '1080-high'),
  ),
)

// biome-ignore lint/suspicious/noExplicitAny: JSON that is spoilt on purpose.
type Json = any
const fresh = (): Json => JSON.parse(text)
const read = (json: unknown) => readExcerpt(json)
const problemsOf = (json: unknown) => {
  const result = read(json)
  return result.ok ? [] : result.problems.map(({ code, field }) => [code, field])
}

test('what was kept is read, and predicts the same to the last digit', () => {
  const result = read(fresh())
  if (!result.ok || result.value === undefined) throw new Error(JSON.stringify(result))
  const [whole, again] = [modelOfExcerpt(fresh()), modelOfExcerpt(result.value)]
  expect(asks.map(again.predict)).toEqual(asks.map(whole.predict))
  expect(asks.some((one) => whole.predict(one).grade !== 'no number')).toBe(true)
})

test('none, and that of another model, are not read and no problem', () => {
  expect(read(undefined)).toEqual({ ok: true, value: undefined })
  expect(read({ ...fresh(), model: `${MODEL_NAME}x`, views: 'of its own kind' })).toEqual({
    ok: true,
    value: undefined,
  })
})

const cellKey = Object.keys(fresh().views[0].cells)[0] as string

test.each<[string, (json: Json) => void, string]>([
  ['a mean that is no number', (j) => (j.views[0].average.mean[3] = null), 'gain.views[0].average.mean[3]'],
  ['a mean without end', (j) => (j.views[0].average.mean[3] = Infinity), 'gain.views[0].average.mean[3]'],
  ['a mean that overflows', (j) => (j.views[0].average.mean[0] = 1e6), 'gain.views[0].average.mean[0]'],
  ['a mean too few', (j) => j.views[1].average.mean.pop(), 'gain.views[1].average.mean'],
  ['a covariance too many', (j) => j.views[0].low.covariance.push(0), 'gain.views[0].low.covariance'],
  [
    'a covariance as text',
    (j) => (j.views[0].ratio.covariance[1] = '0'),
    'gain.views[0].ratio.covariance[1]',
  ],
  ['a variance below 0', (j) => (j.views[0].average.covariance[0] *= -1), 'gain.views[0].average.covariance'],
  [
    'two figures closer than each to itself',
    (j) => (j.views[0].average.covariance[1] = 2 * j.views[0].average.covariance[2] + 1e9),
    'gain.views[0].average.covariance',
  ],
  ['a figure named twice', (j) => (j.views[0].average.names[4] = 'u'), 'gain.views[0].average.names'],
  ['no side to stand on', (j) => (j.views[0].average.names[0] = 'x'), 'gain.views[0].average.names'],
  ['another form', (j) => (j.views[0].average.form = 'sum'), 'gain.views[0].average.form'],
  ['no spread of cells', (j) => (j.views[0].average.tau = 0), 'gain.views[0].average.tau'],
  ['no spread of runs', (j) => delete j.views[0].average.sigma, 'gain.views[0].average.sigma'],
  ['a title not described', (j) => (j.titles = j.titles.slice(1)), 'gain.views[0].titleId'],
  ['a setting not described', (j) => (j.settings = []), 'gain.views[0].settingId'],
  [
    'a cell without runs',
    (j) => (j.views[0].cells[cellKey].runs = []),
    `gain.views[0].cells.${cellKey}.runs`,
  ],
  [
    'a cell heard no times',
    (j) => (j.views[0].cells[cellKey].average.n = 0),
    `gain.views[0].cells.${cellKey}.average.n`,
  ],
  [
    'a run at 0 FPS',
    (j) => (j.views[0].cells[cellKey].runs[0].averageFps = 0),
    `gain.views[0].cells.${cellKey}.runs[0].averageFps`,
  ],
  [
    'a cell under the name of another',
    (j) => (j.views[0].cells = { other: j.views[0].cells[cellKey] }),
    'gain.views[0].cells',
  ],
  ['an instant that is none', (j) => (j.at = 'today'), 'gain.at'],
  ['no views', (j) => delete j.views, 'gain.views'],
  ['a model without a name', (j) => delete j.model, 'gain.model'],
])('%s is a problem that names the field', (_, spoil, field) => {
  const json = fresh()
  spoil(json)
  expect(problemsOf(json)).toContainEqual(['unreadable', field])
})

test.each([[null], [7], ['gain'], [[]], [{}]])('%j is a problem, not a fault', (json) => {
  expect(problemsOf(json)[0]?.[0]).toBe('unreadable')
})

/** Every place in the JSON, by its path. */
function placesIn(json: Json, path: readonly string[] = []): (readonly string[])[] {
  if (typeof json !== 'object' || json === null) return [path]
  return [path, ...Object.keys(json).flatMap((key) => placesIn(json[key], [...path, key]))]
}
/** Places of one kind together, so that the many figures of a covariance are no likelier than its name. */
const kinds = [
  ...placesIn(fresh())
    .filter((path) => path.length > 0)
    .reduce((of, path) => {
      const kind = path.map((step) => (/\d|[|]/.test(step) ? '*' : step)).join('.')
      return of.set(kind, [...(of.get(kind) ?? []).slice(-50), path])
    }, new Map<string, (readonly string[])[]>())
    .values(),
]
const GONE = Symbol('gone')

test('whatever is spoilt wherever: a problem, or predictions that are figures', () => {
  let [refused, accepted] = [0, 0]
  fc.assert(
    fc.property(
      fc.nat(kinds.length - 1),
      fc.nat(),
      fc.constantFrom(null, GONE, '', 'x', -1, 0, 1e-300, 1e9, 1e308, -1e308, Infinity, NaN, true, [], {}),
      (kind, place, value) => {
        const of = kinds[kind] as (readonly string[])[]
        const path = of[place % of.length] as readonly string[]
        const json = fresh()
        const last = path.at(-1) as string
        const holder = path.slice(0, -1).reduce((at, key) => at[key], json)
        if (value !== GONE) holder[last] = value
        else if (Array.isArray(holder)) holder.splice(Number(last), 1)
        else delete holder[last]
        const result = read(json)
        if (!result.ok) {
          refused++
          expect(result.problems.every(({ next, field }) => next !== '' && field.startsWith('gain'))).toBe(
            true,
          )
          return
        }
        accepted++
        if (result.value === undefined) return
        const model = modelOfExcerpt(result.value)
        for (const one of asks)
          expect([model.predict(one), model.difference?.(one), model.why?.(one)].every(isFigures)).toBe(true)
      },
    ),
    { numRuns: runs(200) },
  )
  // Both happen, so neither half of the law is empty.
  expect(refused).toBeGreaterThan(100)
  expect(accepted).toBeGreaterThan(10)
})

/** No number in it is none. */
const isFigures = (value: unknown): boolean =>
  typeof value === 'object' && value !== null
    ? Object.values(value).every(isFigures)
    : typeof value !== 'number' || !Number.isNaN(value)
