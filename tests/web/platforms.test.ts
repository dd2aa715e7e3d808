import { expect, test } from 'vitest'
import type { Part } from '../../src/core/part.ts'
import { ok } from '../../src/problem.ts'
import type { Asked } from '../../src/uses/reach/reachInputs.ts'
import { createApp } from '../../src/web/app.ts'
import { lettersAt } from '../../src/web/pictures/reachSteps.tsx'
import { firstTyped, titleField } from '../../src/web/platformsForm.ts'
import type { PlatformsUses } from '../../src/web/platformsUses.ts'
import { cannedLook } from './cannedPlatforms.ts'
import { cannedUses } from './cannedUses.ts'
import { answerTo, FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

const textOf = async (path: string, uses: Partial<PlatformsUses> = {}): Promise<string> => {
  const html = await (await answerTo({ name: path, path, uses })).text()
  return html
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s|&nbsp;/g, ' ')
    .replaceAll(/ +/g, ' ')
}

// By hand, in tests/core/reach/twoPlatforms.ts.
test('the page shows the figures of the hand-worked platforms', async () => {
  const text = await textOf('/platforms/1')
  const table = text.slice(text.indexOf('The steps as a table'), text.indexOf('First upgrade'))
  // A and B: what each step costs and what it then runs at. Runs alone tell, so both ends are the run's own.
  const steps = [...table.matchAll(/\$(\d+) (\d+) FPS \(/g)].map(([, spend, fps]) => [
    Number(spend),
    Number(fps),
  ])
  expect(steps).toEqual([
    ...[
      [0, 50],
      [115, 70],
      [215, 80],
      [315, 85],
    ],
    ...[
      [0, 55],
      [115, 75],
      [215, 100],
      [315, 130],
    ],
  ])
  // 400 and the first card's 115 with its labour against 500 and 115.
  expect(text).toMatch(
    /Today, A is the cheapest machine for 60 FPS: \$515 in all, with ONE graphics card, then 70 FPS \([^)]*\)\. B needs \$100 more\./,
  )
  expect(text).toContain('B costs $100 more today than A.')
  // 100 FPS only B reaches; at 85 both come to 715.
  expect(text).toContain(
    'Now it pays from 100 FPS on: it needs $215 more for that, and nothing within $400 is sure to get A there.',
  )
  // 60 is missed from the start, and the first card reaches it.
  expect(text).toMatch(/things stay as they are today: ONE graphics card for \$115, then 70 FPS/)
  expect(text).toContain('Money alone: within $400 no limit that is known keeps anything better out.')
})

test('what was never built has bounds that are called so, and what nobody can tell is named', async () => {
  const text = await textOf('/platforms/6')
  expect(text).toContain('between 27 and 90 FPS')
  expect(text).toContain('a bound, no promise')
  expect(text).toContain('Nobody can tell: Harbor never ran on anything like it.')
})

test('a platform that was typed is never told to end by money: what its name does not tell was left out', async () => {
  const view = cannedLook('1')
  const board = { kind: 'board', id: 'TYPED', name: 'Typed board', slotLanes: 16 } as const
  const cpu = { kind: 'processor', id: 'TYPED-CPU', name: 'Typed six' } as const
  const look = view.look
  if (look === undefined) throw new Error('no look')
  const { ask } = look.reach
  const platforms = ask.platforms.map((one, i) =>
    i === 0 ? { ...one, parts: [...one.parts, { partId: 'TYPED' }, { partId: 'TYPED-CPU' }] } : one,
  )
  const typed = {
    ...{ ...view, parts: [...view.parts, board, cpu], asked: { ...view.asked, typed: [board, cpu] } },
    look: { ...look, reach: { ...look.reach, ask: { ...ask, platforms } } },
  }
  const text = await textOf('/platforms/1', { look: async () => ok(typed) })
  expect(text).toContain('A, known by name alone: Typed board and Typed six processor.')
  expect(text).toContain('of Typed board and Typed six processor only the name is known')
  expect(text).toContain('graphics slot of 16 lanes, as most boards have: Typed board.')
  expect(text.match(/Money alone/g)).toHaveLength(1)
  // Narrow or not, it is a bound.
  expect(text).toMatch(/A \$400 between 50 and 50 FPS a bound, no promise/)
})

async function sent(fields: Readonly<Record<string, string>>) {
  const { uses, calls } = cannedUses()
  const answer = await createApp(uses, { demo: false, ...asOwner }).request(`${ORIGIN}/platforms`, {
    method: 'POST',
    headers: { ...FROM_OUR_PAGE, 'Content-Type': 'application/x-www-form-urlencoded' },
    body: new URLSearchParams(fields).toString(),
  })
  return { status: answer.status, html: await answer.text(), calls }
}

const FORM = {
  ...{ count: '2', do: 'start', target: '60', upTo: '600', fall: '10', heavier: '8', years: '3' },
  ...{ 'platform.0.board': 'B550 board', 'platform.0.boardPrice': '80', 'platform.0.processor': 'CPU-B' },
  ...{ 'platform.0.memory': '2x8GB DDR4-3200', 'around.card': 'ONE', 'title.harbor': '1080-high' },
}

test('chosen parts carry the price they can be had for, typed ones what their name tells', async () => {
  const { status, calls } = await sent(FORM)
  expect(status).toBe(303)
  const [, asked, name] = calls.find(([call]) => call === 'askLook') as [string, Asked, string]
  expect(name).toBe('B550 board + CPU-B')
  expect(asked.ask.platforms[0]?.parts).toEqual([
    { partId: '~typed-0-board', priceMinor: 8000 },
    // Seen for 60 to 75: the high end.
    { partId: 'CPU-B', priceMinor: 7500 },
    { partId: '~typed-0-memory', priceMinor: undefined },
    { partId: 'ONE', priceMinor: 10_000 },
  ])
  const typed = new Map(asked.typed.map((part: Part) => [part.kind, part]))
  // Its slot is taken as most boards have it, and the page says so.
  expect(typed.get('board')).toMatchObject({ chipset: 'B550', slotLanes: 16 })
  expect(typed.get('memory')).toMatchObject({ memoryType: 'DDR4', modules: 2, moduleGB: 8, rateMts: 3200 })
  expect(asked.ask.scenario).toEqual({ pricesFallPct: 10, heavierPct: 8, years: 3 })
})

test('what is missing or wrong is told at its field, and nothing typed is lost', async () => {
  const { 'around.card': _, 'platform.0.memory': __, ...less } = FORM
  const { status, html, calls } = await sent({ ...less, years: 'many', upTo: '0' })
  expect(status).toBe(422)
  expect(calls.map(([call]) => call)).not.toContain('askLook')
  for (const field of ['f-around-card', 'f-platform-0-memory', 'f-years'])
    expect(html).toContain(`href="#${field}"`)
  expect(html).toContain('value="B550 board"')
  expect(html).toContain('value="many"')
  const zero = await sent({ ...FORM, upTo: '0' })
  expect(zero.status).toBe(422)
  expect(zero.html).toContain('href="#f-upTo"')
})

test('letters at the ends of lines never stand on each other', () => {
  expect(lettersAt([100, 20, 101])).toEqual([100, 20, 116])
})

test('the titles run most often are chosen beforehand, ten at most, each at the setting it is run at most often', () => {
  const runCounts = [
    { titleId: 'often', settingId: 'high', runs: 9 },
    { titleId: 'seldom', settingId: 'low', runs: 4 },
    { titleId: 'often', settingId: 'low', runs: 3 },
    ...Array.from({ length: 12 }, (_, i) => ({ titleId: `once-${i}`, settingId: 'high', runs: 1 })),
  ]
  const typed = firstTyped({ runCounts })
  expect(typed.get(titleField('often'))).toEqual(['high'])
  expect(typed.get(titleField('seldom'))).toEqual(['low'])
  expect([...typed.keys()].filter((field) => field.startsWith('title.'))).toHaveLength(10)
  expect(typed.get('target')).toEqual(['60'])
  expect(firstTyped({ runCounts: [] }).has(titleField('often'))).toBe(false)
})
