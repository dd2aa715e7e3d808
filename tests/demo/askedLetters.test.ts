import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Question } from '../../src/core/question.ts'
import type { Store } from '../../src/store/open.ts'
import { openStore } from '../../src/store/open.ts'
import { answerQuestion } from '../../src/uses/answerQuestion.ts'
import { importShop } from '../../src/uses/importShop.ts'
import { recordLimit } from '../../src/uses/recordLimit.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { CHAT_MOST } from '../../src/words/answer/chat.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { AT, unwrapped } from '../uses/jobs/jobShop.ts'
import { tablesOf } from './tables.ts'

// The invented shop of fixtures/README.md, M-0207: 286 mm of card room; the Spokeshave 8G was measured in M-0201, the
// machine's own runs with its old card. Prices: opening 15, fitting a card 10, 28 for the old card.

let store: Store
beforeAll(async () => {
  store = await openStore(':memory:')
  unwrapped(await importShop(store, await tablesOf('demo-shop')))
})
afterAll(() => store.close())

const GAMES = ['saffron', 'cellar'].map((titleId) => ({ titleId, settingId: '1080-high', weight: 1 }))

async function said(question: Partial<Question>) {
  const { id } = unwrapped(
    await takeQuestion(
      store,
      {
        ...{ machineTag: 'M-0207', words: 'Can I?', wanted: [], display: {}, targetFps: 60, wishes: [] },
        ...question,
      },
      AT,
    ),
  )
  const answer = unwrapped(await answerQuestion(store, id, AT))
  const chat = chatTextOf(answer)
  expect(chat.length).toBeLessThanOrEqual(CHAT_MOST)
  return { chat: chat.replaceAll('\u00a0', ' '), letter: letterOf(answer) }
}

const card = (words: string, priceMinor?: number) =>
  ({ asks: 'can I put this in', partInMind: { kind: 'card', words, priceMinor } }) as const

describe('a part in mind', () => {
  test('its price counts what is given for the old part, and says what it is without: 120 + 15 + 10 - 28 = 117', async () => {
    const { chat } = await said({ ...card('Hobbin Spokeshave 8G', 12_000), wanted: GAMES })
    expect(chat).toContain('In all, with your part: $117. If you keep your old graphics card, it is $145.')
    expect(chat).toContain('To have it fitted, reply “yes, fit it”.')
    expect(chat).toContain('FPS means pictures a second.')
  })

  test('a number from another machine says so', async () => {
    const { chat, letter } = await said({ ...card('Hobbin Spokeshave 8G', 12_000), wanted: GAMES })
    expect(chat).toContain('measured. Afterwards: measured on another machine that has the new part.')
    expect(JSON.stringify(letter.roads)).toContain('measured on another machine that has the new part')
  })

  test('without the owner’s price, what we pay back is a sum of its own and not a negative one: 28 - 15 - 10', async () => {
    const { chat } = await said(card('Hobbin Spokeshave 8G'))
    expect(chat).toContain('You get from us: $3.')
    expect(chat).not.toMatch(/[-−]\$/)
  })

  test('of one known by its name alone the exact model is asked for, and no figure', async () => {
    const { chat } = await said(card('some 8GB card', 12_000))
    expect(chat).toContain(
      'Which exact model is it? Copy the seller’s whole line, or what is written on the part. Then we look up the rest.',
    )
    expect(chat).toContain('Write back with the answer.')
    expect(chat).not.toMatch(/its length|its thickness|We do not know/)
  })

  test('of one whose exact model is known the shop looks up the figures, and asks for nothing', async () => {
    const { partInMind, ...asks } = card('some 8GB card', 12_000)
    const { chat } = await said({ ...asks, partInMind: { ...partInMind, model: 'exact' } })
    expect(chat).toContain('We look up its figures and write to you.')
    expect(chat).not.toMatch(/Which exact model|its length|Write back with/)
  })

  test('of one whose model nobody knows its figures are asked for, by name', async () => {
    const { partInMind, ...asks } = card('some 8GB card', 12_000)
    const { chat } = await said({ ...asks, partInMind: { ...partInMind, model: 'not known' } })
    expect(chat).toMatch(/We do not know .*its length, its thickness, .*and its power plugs\./)
    expect(chat).toContain('Write back with what you find.')
    expect(chat).not.toContain('We have not looked up all its figures')
  })

  test('one that does not go in asks for nothing more', async () => {
    const part = { kind: 'card', id: 'in mind', name: 'big card', lengthMm: 298 } as const
    const { chat } = await said({
      asks: 'can I put this in',
      partInMind: { kind: 'card', words: 'big card', priceMinor: 12_000, part },
    })
    // 298 - 286 = 12
    expect(chat).toContain('It is 298 mm long, 12 mm too long for your case. A card of up to 286 mm goes in.')
    expect(chat).not.toContain('We do not know')
    expect(chat).not.toContain('Write back with')
  })
})

describe('a complaint', () => {
  test.each(['slow', 'hot', 'loud'] as const)(
    '%s: an owner reads what can be done, and not what is done',
    async (complaint) => {
      const { chat, letter } = await said({ asks: 'something is wrong', complaint })
      expect(chat).toContain(`a ${complaint} machine`)
      expect(chat + JSON.stringify(letter.board)).not.toContain('nothing to do')
      expect(chat).toMatch(/Write back with/)
      expect(chat).not.toContain('the owner')
    },
  )
})

test('what somebody found wrong stands before what is still to be looked at', async () => {
  const claim = { key: 'coolingClean', value: 'no', source: 'entered' } as const
  unwrapped(await recordLimit(store, 'M-0217', claim, AT))
  const { chat } = await said({ machineTag: 'M-0217', asks: 'something is wrong', complaint: 'slow' })
  expect(chat).toContain('Cleaning and new paste (to do)')
  expect(chat.indexOf('(to do)')).toBeLessThan(chat.indexOf('(look first)'))
})

test('titles with a change: that it was measured elsewhere is told once', async () => {
  const { chat } = await said({ asks: 'will it run this', wanted: GAMES })
  expect(chat.match(/on another machine/g)).toHaveLength(1)
})

test('cautions for opening stand where something inside is to be looked at, and nowhere else', async () => {
  const settings = await said({ asks: 'next system version' })
  expect(settings.letter.handsIn).toBeUndefined()
  const sellers = await said(card('some 8GB card', 12_000))
  expect(sellers.letter.handsIn).toBeUndefined()
  const dust = await said({ asks: 'something is wrong', complaint: 'hot' })
  expect(dust.letter.handsIn?.items.join(' ')).toContain('Pull the mains plug')
})

test('of a new supply its own plugs are asked for, and nobody counts those of the old one', async () => {
  const { chat } = await said({
    asks: 'can I put this in',
    partInMind: { kind: 'supply', words: '650W ATX', priceMinor: 5000, model: 'not known' },
  })
  expect(chat).toContain('We do not know its 12 V rating and its power plugs.')
  expect(chat).not.toContain('your supply')
})

test('the next system version asks for what the owner can read in the settings', async () => {
  const { chat } = await said({ asks: 'next system version' })
  expect(chat).toContain('the trust module (a chip that keeps keys)')
  expect(chat).toContain('Write back with what you find.')
})
