import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { expectNear, findingOf, fpsIn, gainIn, optionWith, ruledOut, rulesWith } from './listed.ts'
import { type DemoShop, openDemoShop, type QuestionId } from './openDemoShop.ts'
import { tablesOf } from './tables.ts'

// The expected values are the story of fixtures/README.md (invented data), written before the code could run it, with
// prices added up by hand from work.csv, shelf.csv and trade_ins.csv and frame rates read off runs.csv (two repeats:
// their geometric mean). Facts of platforms name their source where they decide.

let shop: DemoShop
const answerTo = (id: QuestionId) => shop.answerTo(id)

beforeAll(async () => {
  shop = await openDemoShop()
})

afterAll(() => shop.close())

describe('the folder comes in whole', () => {
  test.each([
    ['machines.csv', 16],
    ['customers.csv', 11],
    ['cards.csv', 6],
    ['shelf.csv', 23],
    ['runs.csv', 109],
    ['questions.csv', 10],
  ])('%s adds its %i rows', (file, added) => {
    expect(shop.first.find((table) => table.file === file)).toMatchObject({ added, changed: 0, unchanged: 0 })
  })

  test('every table of the folder is read', async () => {
    const files = (await tablesOf('demo-shop')).map(({ name }) => name)
    expect(files.length).toBeGreaterThan(20)
    expect(shop.first.map(({ file }) => file).sort()).toEqual(files.sort())
  })

  test('a second import changes nothing', async () => {
    const second = await shop.importAgain('demo-shop')
    expect(second.map(({ file, added, changed }) => ({ file, added, changed }))).toEqual(
      shop.first.map(({ file }) => ({ file, added: 0, changed: 0 })),
    )
    expect(second.find(({ file }) => file === 'runs.csv')).toMatchObject({ unchanged: 109 })
  })
})

describe('Q-0301: about $200 for three titles', () => {
  const card = () => optionWith(answerTo('Q-0301'), ['S-601'])

  const both = () => optionWith(answerTo('Q-0301'), ['S-601', 'S-613'])

  test('the Spokeshave is the best in the budget; for the money card and module for $222 come first', () => {
    const { ranking } = answerTo('Q-0301')
    expect([ranking.bestPerMoneyId, ranking.bestInBudgetId]).toEqual([both().id, card().id])
    expect(ranking.ranked.slice(0, 2).map(({ id }) => id)).toEqual([both().id, card().id])
  })

  test('it costs 194 + 15 + 10 - 28 = $191 and is worth +42 %', () => {
    expect(card().price.netMinor).toBe(19_100)
    expect(card().withinBudget).toBe(true)
    // Geometric mean of 75/45.0 (75 Hz shows no more), 64.8/38.5 and 51.6/50.4: 1.42144. 42.144 / 1.91 = 22.065.
    expect(card().useful).toMatchObject({ grade: 'measured', missingTitleIds: [] })
    expectNear(card().useful, 42.144)
    expect(card().pctPer100).toBeCloseTo((card().useful?.pct ?? 0) / 1.91, 9)
    expect(card().pctPer100).toBeCloseTo(22.065, 0)
  })

  test.each([
    ['saffron', '45.0 -> 75.7'],
    ['cellar', '38.5 -> 64.8'],
    ['parish', '50.4 -> 51.6'],
  ])('measured in %s: %s', (title, fps) => expect(fpsIn(card(), title)).toBe(fps))

  test('the old end was run on this machine, the new one on another with the same parts', () => {
    expect(gainIn(card(), 'cellar')).toMatchObject({
      before: { onThisMachine: true },
      after: { onThisMachine: false },
    })
  })

  test('it fits slower: a gen 4 x8 card in a gen 3 slot has 7.877 of 15.754 GB/s', () => {
    expect(card().verdict).toBe('fits slower')
    // PCI Express Base Specification: 8 and 16 GT/s, 128b/130b, so 0.9846 and 1.9692 GB/s a lane, 8 lanes.
    const { values } = findingOf(card(), 'graphics.link')
    expect(values).toMatchObject({ cardGen: 4, cardLanes: 8, linkGen: 3, linkLanes: 8 })
    expect(values.linkGBps).toBeCloseTo(7.877, 3)
    expect(values.cardGBps).toBeCloseTo(15.754, 3)
    expect(rulesWith(card(), 'fits slower')).toEqual(['graphics.link', 'graphics.narrow'])
  })

  test('the tape beats the data sheet: 286 mm and not 290', () => {
    expect(findingOf(card(), 'graphics.length').values).toMatchObject({ cardMm: 236, roomMm: 286 })
  })

  test('cheaper road: a second module of the model that is fitted opens the second channel', () => {
    const memory = optionWith(answerTo('Q-0301'), ['S-613'])
    expect(memory.price.netMinor).toBe(4_600)
    expect(memory.verdict).toBe('fits')
    // Intel rates 10th generation i5 at DDR4-2666 (Intel product pages), and support article 000088926 asks for
    // identical part numbers.
    expect(findingOf(memory, 'memory.rate')).toMatchObject({
      verdict: 'fits',
      values: { fastestMts: 2666, controllerMts: 2666, runsMts: 2666 },
    })
    expect(findingOf(memory, 'memory.channels').values).toMatchObject({ modules: 2, channelsUsed: 2 })
    expect([fpsIn(memory, 'saffron'), fpsIn(memory, 'parish')]).toEqual(['45.0 -> 44.8', '50.4 -> 60.7'])
    expectNear(memory.useful, 6.448)
    expect(memory.worthTheVisit).toBe(true)
  })

  test('strongest road: Larch and Spokeshave, $315, measured in all three titles, all above 60', () => {
    const pair = optionWith(answerTo('Q-0301'), ['S-601', 'S-607'])
    expect(pair.useful).toMatchObject({ grade: 'measured', missingTitleIds: [] })
    expect(pair).toMatchObject({ titlesAtTarget: 3, withinBudget: false, verdict: 'fits slower' })
    expect(pair.price.netMinor).toBe(31_500)
    expect(fpsIn(pair, 'parish')).toBe('50.4 -> 63.8')
    expectNear(pair.useful, 53.422)
    expect(card().titlesAtTarget).toBe(2)
  })

  test('card and module together are half measured in one title, and the cheapest with all three above 60', () => {
    expect(fpsIn(both(), 'cellar')).toBe('half measured')
    expect(both().useful).toMatchObject({ grade: 'half measured', missingTitleIds: [] })
    expect(both()).toMatchObject({ titlesAtTarget: 3, withinBudget: false, price: { netMinor: 22_200 } })
    expect(answerTo('Q-0301').ranking.cheapestToTargetId).toBe(both().id)
    // Nobody ran The Cellar Under Brae with both; with the card alone it was 64.8, and the module moves it little.
    const gain = gainIn(both(), 'cellar')
    expect(gain).toMatchObject({ after: { runIds: [] }, before: { onThisMachine: true } })
    expect(gain.grade === 'no number' ? 0 : gain.after.averageFps).toBeCloseTo(64.8, 0)
  })

  test('the used Bradawl with the module is cheaper and less for the money', () => {
    const bundle = optionWith(answerTo('Q-0301'), ['S-602', 'S-613'])
    expect(bundle.price.netMinor).toBe(15_700)
    // Geometric mean of 58.9/45.0, 51.0/38.5 and 61.25/50.4: 1.28202
    expect(bundle.useful).toMatchObject({ grade: 'measured', missingTitleIds: [] })
    expectNear(bundle.useful, 28.202)
  })

  test('the Froe fits slower, and nobody ran it', () => {
    const froe = optionWith(answerTo('Q-0301'), ['S-603'])
    expect(froe.verdict).toBe('fits slower')
    expect(froe.useful).toBeUndefined()
    expect(answerTo('Q-0301').ranking.withoutNumber.map(({ id }) => id)).toContain(froe.id)
  })

  test.each([
    ['S-604', 'Mattock', ['graphics.length'], '304 mm of 286'],
    ['S-605', 'Billhook', ['graphics.length'], '332 mm of 286'],
    ['S-608', '11th i5', ['processor.generation'], 'Intel: H410 does not take 11th generation'],
    ['S-609', '9th i7', ['processor.socket'], 'LGA1151 in LGA1200'],
    ['S-610', 'Ryzen 5000', ['processor.socket'], 'AM4 in LGA1200'],
  ])('%s, the %s, does not fit: %j', (item, _name, rules) => {
    const out = ruledOut(answerTo('Q-0301'), item)
    expect(out.verdict).toBe('does not fit')
    expect(rulesWith(out, 'does not fit')).toEqual(rules)
  })

  test('three 8-pin plugs: the supply has two and none on the shelf has more', () => {
    const out = ruledOut(answerTo('Q-0301'), 'S-605')
    expect(findingOf(out, 'power.plugs').values).toMatchObject({
      needPlugs: { pin8: 3 },
      havePlugs: { pin8: 2 },
    })
    expect(out.lacking).toContain('supply')
  })
})

describe('the tables as other programs save them', () => {
  test.each([
    ['semicolon', { 'cases.csv': 0, 'shelf.csv': 0 }],
    ['tab-utf16', { 'runs.csv': 0 }],
    ['quoted-newlines', { 'customers.csv': 2 }],
  ])('%s differ from the shop only in the rows that say so: %j', async (variant, changed) => {
    const report = await shop.importAgain(`spreadsheet-variants/${variant}`)
    expect(Object.fromEntries(report.map((table) => [table.file, table.changed]))).toEqual(changed)
    expect(report.reduce((sum, table) => sum + table.added, 0)).toBe(0)
  })
})
