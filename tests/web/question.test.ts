import { describe, expect, test } from 'vitest'
import { percentOf, stepFor, ticksOf } from '../../src/web/pictures/scale.ts'
import { inputs } from './cannedShop.ts'
import { answerTo } from './serve.ts'
import { PAGE_STATES, type PageState } from './states.ts'

const htmlOf = async (state: Omit<PageState, 'name'>): Promise<string> =>
  (await answerTo({ name: state.path, ...state })).text()

/** What a reader sees: no markup, entities as characters, one space between words. */
const wordsOf = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
    .replace(/[\s\u00a0]+/g, ' ')

const rowsOf = (html: string): string[] =>
  [...html.matchAll(/<tr class="option[^"]*">[\s\S]*?<\/tr>/g)].map((m) => wordsOf(m[0]))

describe('the ranked options', () => {
  // Flint 8G, by hand: 129 + 15 opening + 8 fitting - 25 for the old card = 127 dollars.
  // Capped at 75 Hz, weights 2, 1, 1: (68.5/47.2)^(2/4) x (75/75)^(1/4) x (59.4/39.6)^(1/4) = 1.333: +33 %.
  // 33.3 % for 127 dollars is 26 % for 100.
  test('a row says what goes in, the verdict in words, gain, price and gain for the money', async () => {
    const row = rowsOf(await htmlOf({ path: '/questions/Q-0007' }))[1] ?? ''
    for (const words of [
      'Flint 8G graphics card',
      'used, 1 on the shelf',
      'measured',
      'fits slower',
      '+33%',
      '$127',
      '+26%',
    ])
      expect(row).toContain(words)
  })

  test('where several go in, each condition stands behind its own item', async () => {
    const row = rowsOf(await htmlOf({ path: '/questions/Q-0007' }))[0] ?? ''
    // shelf of the canned shop: the stick is new, four of it; the card is used, one of it
    expect(row).toContain('Slate 8 GB stick memory kit: new, 4 on the shelf')
    expect(row).toContain('Flint 8G graphics card: used, 1 on the shelf')
  })

  test('ties name each other', async () => {
    const rows = rowsOf(await htmlOf({ path: '/questions/Q-0007' }))
    expect(rows[0]).toContain('tie with 2')
    expect(rows[1]).toContain('tie with 1')
  })

  test('picks are marked on their rows and nowhere else', async () => {
    const rows = rowsOf(await htmlOf({ path: '/questions/Q-0007' }))
    for (const pick of ['most for the money', 'most within the budget', 'cheapest to the target'])
      expect(rows.map((row) => row.includes(pick))).toEqual([true, false, false, false])
    // A table of their own below the others, though it is the third by gain for the money.
    expect(rows.map((row) => row.includes('above the budget'))).toEqual([false, false, false, true])
  })

  test('one row leads, and the address can choose another; an unknown one changes nothing', async () => {
    const leadOf = async (path: string) =>
      wordsOf(/<tr class="option lead">[\s\S]*?<\/tr>/.exec(await htmlOf({ path }))?.[0] ?? '')
    expect(await leadOf('/questions/Q-0007')).toContain('Slate 8 GB stick memory kit + Flint 8G')
    expect(await leadOf('/questions/Q-0007?option=S-1')).toMatch(/^ 2 Flint 8G/)
    expect(await leadOf('/questions/Q-0007?option=no-such')).toContain(
      'Slate 8 GB stick memory kit + Flint 8G',
    )
  })

  test('why this number: price lines, runs with dates, the raw figures and the formula', async () => {
    const words = wordsOf(await htmlOf({ path: '/questions/Q-0007/why?option=S-1' }))
    for (const line of [
      'Opening the machine 10 minutes $15',
      'Fitting: Flint 8G graphics card 10 minutes $8',
      'Taken in exchange: Pebble 4G graphics card −$25',
      'Net price $127',
      'run R-today-1 , May 10, 2026, on this machine',
      'run R-flint-1 , May 10, 2026, on another machine with these parts',
      '68.5 ÷ 47.2 gives +45%', // 68.5 / 47.2 = 1.451
      'Lantern Coast (counts 2 times)',
      'each frame rate counted up to the 75 the display shows',
    ])
      expect(words).toContain(line)
  })
})

describe('what is not ranked', () => {
  test('a card without runs names the run that would help', async () => {
    const words = wordsOf(await htmlOf({ path: '/questions/Q-0007' }))
    expect(words).toMatch(/Fits, but no number .*Grit 6G graphics card \$117 .{0,200}Run Lantern Coast/)
  })

  test('a missing figure is named with where to find it', async () => {
    const words = wordsOf(await htmlOf({ path: '/questions/Q-0007' }))
    expect(words).toMatch(
      /Can’t tell yet can’t tell Shale 6G graphics card \$97 4 facts missing .*Enter its figures : Shale 6G length, thickness, board power, power plugs/,
    )
  })

  test('facts that are missing are counted, and no sentence stands twice in one item', async () => {
    // Shale 6G lacks length, thickness, board power and plugs; each rule that needs one of them asks for it
    const html = await htmlOf({ path: '/questions/Q-0007' })
    const item = /<li>(?:(?!<li>)[\s\S])*?Shale 6G[\s\S]*?Price and reasons/.exec(html)?.[0] ?? ''
    expect(wordsOf(item)).toContain('4 facts missing')
    // A paragraph that begins with a link has no sentence of its own.
    const sentences = [...item.matchAll(/<p>([^<]*)/g)].map((m) => m[1]?.trim()).filter((said) => said !== '')
    expect(sentences.length).toBeGreaterThan(0)
    expect(new Set(sentences).size).toBe(sentences.length)
  })

  test('a missing figure leads to the form of its part, at its field, with the way back', async () => {
    const html = await htmlOf({ path: '/questions/Q-0007' })
    expect(html).toContain('href="/parts/CRD-SHALE?from=%2Fquestions%2FQ-0007#f-figure-lengthMm"')
    expect(await htmlOf({ path: '/parts/CRD-SHALE' })).toContain('id="f-figure-lengthMm"')
  })

  test('a missing limit leads to its own form, standing open', async () => {
    const html = await htmlOf({ path: '/questions/Q-0007' })
    const href = /href="(\/machines\/T-0007\?enter=(\w+)#limit-\w+)"/.exec(html)
    expect(href?.[2]).toBeDefined()
    const machine = await htmlOf({ path: href?.[1]?.split('#')[0] ?? '' })
    const entry = new RegExp(`id="limit-${href?.[2]}"[\\s\\S]*?<details class="enter"( open="")?`).exec(
      machine,
    )
    expect(entry?.[1]).toBe(' open=""')
    expect(machine.match(/<details class="enter" open=""/g)).toHaveLength(1)
  })

  test('a machine without a part leads to where it is written down', async () => {
    const bare = { tag: 'T-0007', build: { memory: [], drives: [], fans: [] }, claims: [] }
    const html = await htmlOf({ path: '/questions/Q-0007', inputs: { ...inputs, machine: bare } })
    expect(html).toMatch(/<a class="ask-link" href="\/machines\/T-0007\/correct">\s*Say which/)
  })

  test('what is left out has its reasons', async () => {
    const words = wordsOf(await htmlOf({ path: '/questions/Q-0007' }))
    expect(words).toMatch(/Left out, and why does not fit Cliff 16G .*320 mm long, 36 mm too long/) // 320 - 284
    expect(words).toMatch(/does not fit Egret 6 processor .*AM5/)
  })

  test('no runs: nothing is counted as missed', async () => {
    const words = wordsOf(await htmlOf({ path: '/questions/Q-0007', inputs: { ...inputs, runs: [] } }))
    expect(words).toContain('today’s frame rates are not known')
    expect(words).not.toMatch(/Today 0 of/)
  })

  test('an empty shelf says so', async () => {
    const words = wordsOf(await htmlOf({ path: '/questions/Q-0007', inputs: { ...inputs, shelf: [] } }))
    expect(words).toContain('The shelf is empty, so nothing can be ranked. Put on the shelf what you can')
  })
})

describe('beside the answer', () => {
  test('limits with who says so, a conflict in words, the unknown with how to find out', async () => {
    const words = wordsOf(await htmlOf({ path: '/questions/Q-0007' }))
    expect(words).toMatch(/Room for a card 284 mm measured Sep 2, 2025 \(front fan in\) sources disagree/)
    expect(words).toMatch(/Room for a cooler not known Measure the gap/)
  })

  test('load against what is counted on: 88 + 132 + 50 = 270 of 420 x 80 % = 336 W', async () => {
    expect(wordsOf(await htmlOf({ path: '/questions/Q-0007' }))).toContain('takes 270 W of 336 W counted on')
  })

  test('a kept answer says when it was made and with what, and writes no second message', async () => {
    const words = wordsOf(await htmlOf({ path: '/answers/1' }))
    expect(words).toMatch(/Kept as it was on June 12, 2026\. .* facts \S+, rules \S+, gain \S+/)
    expect(words).not.toContain('Write the answer')
  })
})

describe('pictures', () => {
  const numberIn = (text: string, pattern: RegExp): number => Number(pattern.exec(text)?.[1])

  test('bars and the wanted line share one scale: 47.2 against 60 FPS', async () => {
    const html = await htmlOf({ path: '/questions/Q-0007' })
    const before = numberIn(html, /<rect class="before"[^>]* width="([\d.]+)%"/)
    const wanted = numberIn(html, /<line class="wanted" x1="([\d.]+)%"/)
    expect(before / wanted).toBeCloseTo(47.2 / 60, 3) // percent with two digits: 0.01 of about 50
  })

  test('the stair stands where prices are: 41.50, 127, 153.50 and 256 dollars from zero', async () => {
    const html = await htmlOf({ path: '/questions/Q-0007' })
    const at = [...html.matchAll(/<circle class="known" cx="([\d.]+)%"/g)]
      .map((m) => Number(m[1]))
      .sort((a, b) => a - b)
    expect(at).toHaveLength(4)
    const dollars = at.map((percent) => (percent / (at[3] ?? 0)) * 256)
    for (const [i, price] of [41.5, 127, 153.5, 256].entries()) expect(dollars[i]).toBeCloseTo(price, 1)
  })

  test.each([
    // By the rule: the smallest of 1, 2, 5, 10 times a power of ten that needs no more than `count` steps.
    { span: 43, count: 5, step: 10 },
    { span: 40, count: 4, step: 10 },
    { span: 41, count: 4, step: 20 },
    { span: 276.5, count: 4, step: 100 },
    { span: 0.9, count: 3, step: 0.5 },
  ])('a span of $span in at most $count steps goes by $step', ({ span, count, step }) => {
    expect(stepFor(span, count)).toBeCloseTo(step, 10)
  })

  test('ticks are the round values inside, both ends included', () => {
    expect(ticksOf(0, 43, 5)).toEqual([0, 10, 20, 30, 40])
    expect(ticksOf(-10, 40, 5)).toEqual([-10, 0, 10, 20, 30, 40])
    expect(ticksOf(-3, 8, 4)).toEqual([0, 5])
  })

  test('the scale maps its ends to 0 and 100 percent', () => {
    expect([-20, 0, 60].map(percentOf(-20, 60))).toEqual(['0.00%', '25.00%', '100.00%'])
  })
})

test.each(PAGE_STATES.map((state) => [state.name, state] as const))(
  '%s: no id stands twice',
  async (_, state) => {
    const html = await (await answerTo(state)).text()
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map((m) => m[1])
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([])
  },
)

describe('a complaint', () => {
  const state = (name: string): PageState => {
    const found = PAGE_STATES.find((s) => s.name === name)
    if (found === undefined) throw new Error(`no state ${name}`)
    return found
  }
  const worksOf = (html: string): Map<string, string> =>
    new Map(
      [
        ...(/<section class="asked"[\s\S]*$/.exec(html)?.[0] ?? '').matchAll(
          /<li>(?:(?!<li>)[\s\S])*?<\/li>/g,
        ),
      ].map(([item]) => [/<b>([^<]*)<\/b>/.exec(item)?.[1] ?? '', item]),
    )

  test('a work whose state nobody looked at has a way to enter it, to ask the owner, and to a job', async () => {
    const html = await htmlOf(state('question-hot'))
    const cleaning = [...worksOf(html)].find(([what]) => /clean/i.test(what))?.[1] ?? ''
    expect(cleaning).toContain('href="/machines/T-0007?enter=coolingClean#limit-coolingClean"')
    expect(cleaning).toMatch(/href="\/ask\?[^"]*limit=coolingClean/)
    const yes = /href="(\/questions\/Q-0007\/yes\?option=[^"]+)"/.exec(cleaning)?.[1] ?? ''
    const page = wordsOf(await htmlOf({ ...state('question-hot'), path: yes.replaceAll('&amp;', '&') }))
    expect(page).toMatch(/They said yes to: cleaning/)
  })

  test('its works are told once: those named above are not listed again under "Check this first"', async () => {
    const html = await htmlOf(state('question-slow'))
    expect(html.match(/href="\/machines\/T-0007\?enter=driversClean#/g)).toHaveLength(1)
  })

  test('what is known to be done has nothing to press', async () => {
    const clean = { key: 'coolingClean', value: 'yes', source: 'measured' } as const
    const { inputs: from = inputs } = state('question-hot')
    const machine = { ...from.machine, claims: [...from.machine.claims, clean] }
    const html = await htmlOf({ ...state('question-hot'), inputs: { ...from, machine } })
    const cleaning = [...worksOf(html)].find(([what]) => /clean/i.test(what))?.[1] ?? ''
    expect(wordsOf(cleaning)).toContain('nothing to do')
    expect(cleaning).not.toContain('<a ')
  })
})
