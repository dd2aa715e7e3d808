import { describe, expect, test } from 'vitest'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import { RULE_IDS } from '../../src/core/fit/finding.ts'
import { changesOfOption, limitsBehind } from '../../src/core/limitsBehind.ts'
import { inputs } from './cannedShop.ts'
import { answerTo } from './serve.ts'
import type { PageState } from './states.ts'

const htmlOf = async (state: Omit<PageState, 'name'>): Promise<string> =>
  (await answerTo({ name: state.path, ...state })).text()

const opened = (html: string): string[] =>
  [...html.matchAll(/<details class="explain">[\s\S]*?<\/details>/g)].map((m) => m[0])
const plain = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('&gt;', '>')
    .replaceAll('&lt;', '<')
    .replace(/[\s\u00a0]+/g, ' ')
const page = await htmlOf({ path: '/questions/Q-0007' })
/** The pages behind each option. */
const behind = [...page.matchAll(/href="(\/questions\/Q-0007\/why\?[^"]+)"/g)].map((m) => m[1] ?? '')
const behindPages = await Promise.all([...new Set(behind)].map((path) => htmlOf({ path })))
const all = [page, ...behindPages].join('')

describe('a finding on the page of a question', () => {
  const long = opened(page).find((d) => d.includes('graphics.length') && d.includes('too long'))

  test('is closed, and its sentence is the one that the owner reads', () => {
    expect(long).toMatch(/^<details class="explain"><summary>/)
    expect(plain(long?.split('</summary>')[0] ?? '')).toBe(
      ' It is 320 mm long, 36 mm too long for your case. ',
    )
  })

  // The canned shop: a tape says 284 mm, the case's data sheet 310 mm; the card is 320 mm long.
  test('opens to the exact line, the numbers, the limit with who says so, and the document', () => {
    const text = plain(long ?? '')
    for (const said of [
      '320 mm > 284 mm',
      'Length of the card: 320 mm',
      'Room in the case: 284 mm',
      'Over by: 36 mm',
      'Figures of the part Cliff 16G: as its record says, from data sheet, label or print',
      'Room for a card : 284 mm , measured Sep 2, 2025 (front fan in)',
      'a measurement says 284 mm, the data sheet says 310 mm',
      'If that is wrong: 310 mm, from its data sheet.',
      "card's data sheet against the free length in the case (common practice of the trade)",
    ])
      expect(text).toContain(said)
  })

  test('stands wherever findings are listed: what was ruled out, and behind every number and every part without one', async () => {
    const of = (from: string, to: string) => page.split(from)[1]?.split(to)[0] ?? ''
    expect(opened(of('id="ruled-out"', '</section>')).length).toBeGreaterThan(2)
    const { ranked, withoutNumber, needsAFact } = computeAnswer(inputs, '2026-06-11T10:00:00.000Z').ranking
    expect(new Set(behind).size).toBe(ranked.length + withoutNumber.length + needsAFact.length)
    for (const html of behindPages) expect(opened(html).length).toBeGreaterThan(2)
  })

  test('needs no script', () => {
    expect(page).not.toMatch(/ on(click|toggle)=/)
  })
})

describe('the links of a finding', () => {
  test('every rule has a place of its own on the sheet of rules, and every link goes to one', async () => {
    const rules = await htmlOf({ path: '/rules' })
    for (const id of RULE_IDS) expect(rules, id).toContain(`id="rule-${id}"`)
    const links = [...all.matchAll(/href="\/rules#(rule-[^"]+)"/g)].map((m) => m[1])
    expect(links.length).toBeGreaterThan(20)
    expect(links.filter((link) => !rules.includes(`id="${link}"`))).toEqual([])
  })

  test('every link to a limit goes to that limit on the page of the machine', async () => {
    const links = [...all.matchAll(/href="(\/machines\/T-0007[^"#]*)#(limit-[^"]+)"/g)]
    expect(links.length).toBeGreaterThan(20)
    const machines = new Map<string, string>()
    for (const [, path = '', id] of links) {
      const html = machines.get(path) ?? (await htmlOf({ path: path.replaceAll('&amp;', '&') }))
      machines.set(path, html)
      expect(html, path).toContain(`id="${id}"`)
    }
  })
})

describe('the limits behind a finding', () => {
  const answer = computeAnswer(inputs, '2026-06-11T10:00:00.000Z')
  const [option] = answer.ranking.ranked
  const [finding] = option?.findings ?? []
  if (option === undefined || finding === undefined) throw new Error('nothing is ranked')
  const changes = changesOfOption(option.change, option.findings)

  test('are there where the kept inputs give the same finding again', () => {
    expect(limitsBehind(answer, finding, changes)?.changed).toEqual(
      new Set(option.change.add.map(({ kind }) => kind)),
    )
  })

  test('are not there for a finding of earlier rules or tables, and the page says so', () => {
    const other = { ...finding, values: { ...finding.values, cardGBps: 4 } }
    expect(limitsBehind(answer, other, changes)).toBeUndefined()
    expect(limitsBehind(answer, finding, [])).toBeUndefined()
  })
})
