import { describe, expect, test } from 'vitest'
import { RULE_IDS } from '../../src/core/fit/finding.ts'
import { LIMIT_CATALOGUE } from '../../src/core/limits/catalogue.ts'
import { failed } from '../../src/problem.ts'
import { createApp } from '../../src/web/app.ts'
import { ENTERABLE, sourcesFor } from '../../src/web/claimForm.ts'
import { ageText } from '../../src/web/facts.tsx'
import { problemText } from '../../src/web/form.tsx'
import { ruleSheet } from '../../src/words/rules.ts'
import { inputs } from './cannedShop.ts'
import { cannedUses, emptyUses } from './cannedUses.ts'
import { answerTo, FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'
import type { PageState } from './states.ts'

const htmlOf = async (state: Omit<PageState, 'name'>): Promise<string> =>
  (await answerTo({ name: state.path, ...state })).text()

/** Letters and digits alone, so that escapes and hard spaces do not matter. */
const plain = (text: string): string => text.replace(/&[#\w]+;/g, '').replace(/[^\p{L}\p{N}]/gu, '')

const selectOf = (html: string, name: string): string =>
  new RegExp(`<select[^>]*name="${name}"[\\s\\S]*?</select>`).exec(html)?.[0] ?? ''

async function send(path: string, fields: Record<string, string>) {
  const { uses, calls } = cannedUses()
  const answer = await createApp(uses, { demo: false, ...asOwner }).request(`${ORIGIN}${path}`, {
    method: 'POST',
    body: new URLSearchParams(fields),
    headers: FROM_OUR_PAGE,
  })
  return { answer, calls, text: await answer.text() }
}

describe('who says so', () => {
  test('only sources that the limit counts are offered, and never none', () => {
    for (const key of ENTERABLE) {
      expect(sourcesFor(key).length, key).toBeGreaterThan(0)
      for (const [source] of sourcesFor(key)) expect(LIMIT_CATALOGUE[key].belief, key).toContain(source)
    }
  })

  test('a tape measure is read by nobody, a firmware version is', async () => {
    // On a machine's page the form of one limit comes when it is asked for; a new machine has them all.
    for (const pathOf of [(key: string) => `/machines/T-0007?enter=${key}`, () => '/machines/new']) {
      const room = await htmlOf({ path: pathOf('coolerRoomMm') })
      expect(selectOf(room, 'source.coolerRoomMm')).toContain('value="measured"')
      expect(selectOf(room, 'source.coolerRoomMm')).not.toContain('value="read"')
      expect(selectOf(await htmlOf({ path: pathOf('firmware') }), 'source.firmware')).toContain(
        'value="read"',
      )
    }
  })

  test('one that is sent all the same is refused', async () => {
    const { answer, calls } = await send('/machines/T-0007/limits', {
      key: 'memoryMaxGB',
      'limit.memoryMaxGB': '32',
      'source.memoryMaxGB': 'read',
    })
    expect(answer.status).toBe(422)
    expect(calls).toEqual([])
  })

  test('a stored claim that is only a hint is said to be one; a measured one is not', async () => {
    const { machine } = inputs
    const claimed = (source: 'read' | 'measured') => ({
      ...inputs,
      machine: { ...machine, claims: [{ key: 'memoryMaxGB', value: 32, source } as const] },
    })
    const path = '/machines/T-0007'
    expect(await htmlOf({ path, inputs: claimed('read') })).toContain(
      '32\u00a0GB read from the machine: a hint, not counted',
    )
    expect(await htmlOf({ path, inputs: claimed('measured') })).not.toContain('not counted')
    const bare = { ...claimed('read').machine, build: { memory: [], drives: [], fans: [] } }
    expect(await htmlOf({ path, inputs: { ...inputs, machine: bare } })).toContain('a hint, not counted')
  })

  test('labels keep their capitals: V is volt', async () => {
    expect(await htmlOf({ path: '/machines/new' })).toContain('Who says so: Supply at 12 V<')
  })
})

describe('how long a question waits', () => {
  // Calendar days in Chicago (UTC-5 in June, UTC-6 from November 1, 2026): midnight there is 05:00 or 06:00 UTC.
  test.each([
    ['2026-06-12T04:59:00Z', '2026-06-12T05:01:00Z', 'yesterday'], // 23:59 and 00:01
    ['2026-06-11T05:01:00Z', '2026-06-12T04:59:00Z', 'today'], // 00:01 and 23:59 of one day
    ['2026-06-11T04:59:00Z', '2026-06-12T05:01:00Z', '2 days ago'], // 24 hours and two minutes, two midnights
    ['2026-10-31T17:00:00Z', '2026-11-02T06:01:00Z', '2 days ago'], // over the change of clocks
    ['2026-06-13T05:00:00Z', '2026-06-12T15:00:00Z', 'today'], // a clock that runs ahead
  ])('asked %s, now %s: %s', (at, now, says) => {
    expect(ageText(at, now, 'America/Chicago')).toBe(says)
  })
})

describe('the list of questions', () => {
  test('a written message is no answer sent', async () => {
    const html = await htmlOf({ path: '/' })
    expect(html).toMatch(/<h2[^>]*>Waiting<\/h2>/)
    expect(html).toMatch(/<h2[^>]*>Message written<\/h2>/)
    expect(html).toContain('message written May')
    expect(html.replaceAll('/answers/', '')).not.toMatch(/answered/i)
  })
})

describe('problems', () => {
  const imported = (next: string) =>
    htmlOf({
      path: '/import',
      form: { files: 'runs.csv' },
      uses: {
        importFiles: async () =>
          failed({ code: 'not allowed', field: 'cores', got: 'x', next, allowed: 'a number from 1 to 9' }),
      },
    })

  test('what is allowed is said once', async () => {
    expect(await imported('This is not a number.')).toContain('Allowed: a number from 1 to 9')
    expect(await imported('Write a number from 1 to 9.')).not.toContain('Allowed:')
  })

  test('what was given is cut after 80 signs in messages, a pair of surrogates is one sign', () => {
    const said = (got: string) => problemText({ code: 'not allowed', field: 'x', got, next: 'No.' })
    expect(said('a'.repeat(80))).toBe(`“${'a'.repeat(80)}” No.`)
    expect(said('a'.repeat(81))).toBe(`“${'a'.repeat(80)}…” No.`)
    expect(said(`${'a'.repeat(79)}\u{1f5a5}b`)).toBe(`“${'a'.repeat(79)}\u{1f5a5}…” No.`)
  })

  test('the field itself keeps the whole text', async () => {
    const long = 'no number '.repeat(20).trim()
    const { text } = await send('/questions/new', { do: 'save', budget: long })
    expect(text).toContain(`value="${long}"`)
    expect(text).toContain(`“${long.slice(0, 80)}…”`)
  })
})

describe('a machine of which nothing is known', () => {
  test('is asked back once, and saved when it is meant', async () => {
    const first = await send('/machines/new', { tag: 'T-0008' })
    expect(first.answer.status).toBe(422)
    expect(first.calls).toEqual([])
    expect(first.text).toContain('Nothing is known of it yet. Save it all the same?')
    const confirm = /name="confirm" value="(\w+)"/.exec(first.text)?.[1] ?? ''
    const second = await send('/machines/new', { tag: 'T-0008', confirm })
    expect(second.answer.status).toBe(303)
    expect(second.calls).toHaveLength(1)
  })

  test.each([{ 'part.board.0': 'H410M' }, { ownerName: 'Sanna' }, { note: 'in the loft' }])(
    'with %j it is saved at once',
    async (fields) => {
      const { answer } = await send('/machines/new', { tag: 'T-0008', ...fields })
      expect(answer.status).toBe(303)
    },
  )
})

describe('what is still needed', () => {
  const steps = (html: string): (string | undefined)[] =>
    [...html.matchAll(/<svg[^>]*>(?:(?!<\/svg>)[\s\S])*<\/svg>(done|not yet)<\/span>/g)].map((m) => m[1])

  test('an empty shop sees five steps, none of them done, with the way in', async () => {
    for (const path of ['/', '/questions/new']) {
      const html = await htmlOf({ path, uses: emptyUses })
      expect(steps(html), path).toEqual(Array(5).fill('not yet'))
      expect(html).toContain('npx stillfits tables')
      expect(html).toContain('<a href="/settings">')
      expect(html).toContain('<a href="/import">import titles.csv and settings.csv</a>')
    }
  })

  test('what is there is marked as done', async () => {
    const known = async () => ({
      ...{ machines: [], titles: [], settings: [], parts: [], nextTag: 'M-0002' },
      ready: { shop: false, machines: true, titles: false, shelf: true, runs: false },
    })
    const html = await htmlOf({ path: '/questions/new', uses: { known } })
    expect(steps(html)).toEqual(['not yet', 'done', 'not yet', 'done', 'not yet'])
  })

  test('a shop that has it all is left in peace', async () => {
    for (const path of ['/', '/questions/new']) expect(steps(await htmlOf({ path })), path).toEqual([])
  })
})

test('the machine field offers owner and parts beside the tag', async () => {
  expect(await htmlOf({ path: '/questions/new' })).toContain(
    '<option value="T-0007">Imre Vale, Teal 6, Pebble 4G</option>',
  )
})

test('the mail can be opened alone', async () => {
  expect(await htmlOf({ path: '/messages/1' })).toContain(
    '<a href="/messages/1/preview">Open the mail alone</a>',
  )
})

test('the rules can be read: each once, with what it reads, its thresholds and its source; every page leads there', async () => {
  const html = await htmlOf({ path: '/rules' })
  const text = html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
  expect(html.match(/<tr id="rule-/g)).toHaveLength(RULE_IDS.length)
  for (const id of RULE_IDS) expect(html).toContain(`id="rule-${id}"`)
  for (const { source, thresholds } of ruleSheet())
    for (const said of [source.text, ...thresholds]) expect(plain(text), said).toContain(plain(said))
  for (const path of ['/', '/machines', '/nowhere'])
    expect(await htmlOf({ path })).toContain('<a href="/rules">')
})
