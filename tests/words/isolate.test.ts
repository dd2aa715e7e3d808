import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { turnIn, withoutTurns } from '../../src/core/direction.ts'
import { isolatedMail, isolatedPage, isolatedText } from '../../src/words/isolate.ts'

/** Scripts from right to left, by the language's own Unicode tables (ECMAScript, 22.2.1; scripts: UAX #24, direction: UAX #9). */
const RIGHT_LETTER =
  /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\p{Script=Adlam}]/u

describe('signs that turn the direction of text', () => {
  // UAX #9, 2: the twelve of Bidi_Control.
  test.each(['061C', '200E', '200F', '202A', '202B', '202C', '202D', '202E', '2066', '2067', '2068', '2069'])(
    'U+%s is found and taken out',
    (code) => {
      const text = `a${String.fromCodePoint(Number.parseInt(code, 16))}b`
      expect(turnIn(text)).toBe(`U+${code}`)
      expect(withoutTurns(text)).toBe('ab')
    },
  )
  test('others are not: joiners are part of Persian and of pictures', () => {
    for (const text of ['می\u200cخواهم', '👩\u200d🔧', 'a\u00adb']) {
      expect(turnIn(text)).toBeUndefined()
      expect(withoutTurns(text)).toBe(text)
    }
  })
})

describe('words from right to left', () => {
  test.each([
    ['Hi שרה, 3 cards', 'Hi ⁨שרה⁩, 3 cards'],
    ['שרה לוי 12', '⁨שרה לוי⁩ 12'],
    ["רח' הרצל 12 א", "⁨רח' הרצל 12 א⁩"],
    // Two names of a list keep the list's order.
    ['שרה, علي', '⁨שרה⁩, ⁨علي⁩'],
    ['שרה and דוד', '⁨שרה⁩ and ⁨דוד⁩'],
    ['١٢ x', '⁨١٢⁩ x'],
    ['\u202eMara\u202c', 'Mara'],
    ['Mara', 'Mara'],
    ['', ''],
  ])('%j', (text, apart) => {
    expect(isolatedText(text)).toBe(apart)
  })

  test('on a page by elements, by signs where no element can stand, and not in fields', () => {
    const page = (inner: string) =>
      `<title>${inner}</title><!-- שרה --><p title="שרה">${inner} 3</p><textarea>שרה</textarea><option value="שרה">${inner}</option><svg><text>${inner}</text></svg><b>${inner}</b>`
    const shown = isolatedPage(page('שרה'))
    expect(shown).toBe(
      '<title>⁨שרה⁩</title><!-- שרה --><p title="שרה"><bdi>שרה</bdi> 3</p><textarea>שרה</textarea><option value="שרה">⁨שרה⁩</option><svg><text>⁨שרה⁩</text></svg><b><bdi>שרה</bdi></b>',
    )
    expect(isolatedMail('<p title="שרה">שרה 3')).toBe('<p title="שרה">⁨שרה⁩ 3')
  })

  test('law: nothing is lost or added but signs, and every such letter stands between them', () => {
    const text = fc.string({ unit: 'grapheme' })
    const mixed = fc
      .array(fc.oneof(text, fc.constantFrom('שרה', 'علي', '<', '>', '&lt;', ' 3 ', ', ', '\u202e', 'ރ')))
      .map((a) => a.join(''))
    fc.assert(
      fc.property(mixed, (given) => {
        const apart = isolatedText(given)
        expect(apart.replaceAll(/[\u2068\u2069]/g, '')).toBe(withoutTurns(given))
        expect(apart.replaceAll(/\u2068[^\u2068\u2069]*\u2069/g, '')).not.toMatch(RIGHT_LETTER)
        expect(isolatedPage(given).replaceAll(/<\/?bdi>|[\u2068\u2069]/g, '')).toBe(
          withoutTurns(given).replaceAll(/<\/?bdi>/g, ''),
        )
      }),
    )
  })
})
