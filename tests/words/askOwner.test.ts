import { expect, test } from 'vitest'
import { LIMIT_KEYS } from '../../src/core/limits/catalogue.ts'
import { askOwnerText, wantedWords } from '../../src/words/askOwner.ts'
import { sayOwnerState } from '../../src/words/questionState.ts'

test('what is needed reads inside a sentence, whatever the limit', () => {
  for (const key of LIMIT_KEYS) {
    const { what } = wantedWords(key)
    expect(what, key).toMatch(/^(?:\p{Ll}|\d|\p{Lu}[\p{Lu}.])/u)
    expect(what, key).not.toMatch(/^\p{Ll}\p{Lu}|\.$/u)
  }
  expect(wantedWords('memoryRunsMts').what).toBe('the rate at which the memory runs today')
  expect(wantedWords('diskEncrypted').what).toBe('whether the drive is encrypted')
  expect(wantedWords('cardRoomMm')).toEqual({ what: 'room for a graphics card', saysMeaning: true })
})

test('of something that is so or not, the text asks whether it is, and explains it once', () => {
  const text = askOwnerText({
    ...{ limitKey: 'coolingClean', tag: 'M-0001', builder: 'Ada', shop: 'A shop', ownerName: 'Odile M' },
  })
  expect(text).toContain('for machine M-0001: whether cooler, fans and filters are free of dust.')
  expect(text.match(/free of dust/g)).toHaveLength(1)
})

test('an owner who fits the parts at home reads that they are with them, and not on our bench', () => {
  expect(sayOwnerState('on the bench', 'shop')).toBe('on our bench now')
  expect(sayOwnerState('on the bench', 'owner')).toBe('with you, to fit')
  expect(sayOwnerState('on the bench', 'owner', true)).toBe('it is in')
  expect(sayOwnerState('on the bench', 'shop', true)).toBe('on our bench now')
  expect(sayOwnerState('answered', undefined)).toBe('answered')
  expect(sayOwnerState('done', 'owner')).toBe('done')
})
