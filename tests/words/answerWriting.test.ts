import { describe, expect, test } from 'vitest'
import { PREHEADER_MOST, SUBJECT_MOST } from '../../src/words/answer/lead.ts'
import { letterOf } from '../../src/words/answer.ts'
import { ANSWER_EN } from '../../src/words/en/answer.ts'
import { GLOSSES_EN } from '../../src/words/en/glosses.ts'
import { GLOSSES_MOST } from '../../src/words/gloss.ts'
import { KINDS } from './answers.ts'
import { proseOf, sentencesOf, wordsIn } from './prose.ts'

// Plain-language laws of words.md (after ISO 24495-1 and WCAG 2.1, 3.1.5, from memory): mean sentence 13 words or
// fewer, none over 22; trade words explained, at most seven of them; no pressure, mood or letters for parts.
const letters = Object.entries(KINDS).map(([name, answer]) => ({ name, letter: letterOf(answer) }))

describe.each(letters)('$name', ({ letter }) => {
  const sentences = sentencesOf(proseOf(letter))

  test('no sentence over 22 words, 13 on average', () => {
    const lengths = sentences.map(wordsIn)
    expect(sentences.filter((s) => wordsIn(s) > 22)).toEqual([])
    expect(lengths.reduce((a, b) => a + b, 0) / lengths.length).toBeLessThanOrEqual(13)
  })

  test('sentences begin with a capital or a figure and end with a mark', () => {
    expect(sentences.filter((s) => !/^[\p{Lu}\d]/u.test(s))).toEqual([])
    expect(sentences.filter((s) => !/[.?:]$/.test(s))).toEqual([])
  })

  test('at most seven glosses', () => {
    const text = proseOf(letter).join(' ')
    const spoken = ['FPS means', 'Useful gain:', '99 of 100'].filter((s) => text.includes(s)).length
    const used = GLOSSES_EN.flatMap((g) => Object.values(g)).filter((gloss) => text.includes(`(${gloss})`))
    expect(used.length + spoken).toBeLessThanOrEqual(GLOSSES_MOST)
    for (const gloss of used) expect(text.split(`(${gloss})`)).toHaveLength(2)
  })

  test('subject and preheader are as short as phones show them', () => {
    expect(letter.subject.length).toBeLessThanOrEqual(SUBJECT_MOST)
    expect(letter.preheader.length).toBeLessThanOrEqual(PREHEADER_MOST)
    expect(letter.subject).not.toMatch(/^re:|free|%|!/i)
  })
})

test('a gloss has six words or fewer', () => {
  expect(GLOSSES_EN.flatMap((g) => Object.values(g)).filter((g) => wordsIn(g) > 6)).toEqual([])
})

/** Words that press, judge, promise too much or are letters to the reader: the list of words.md, section 11. */
const NEVER =
  /\b(hurry|last chance|don.t miss|while stocks? last|limited|act (fast|now)|deal|steal|bargain|best value|no-brainer|guaranteed?|locked|smooth|blazing|beast|insane|massive|night and day|future-?proof|bottleneck\w*|compatible|supported|should fit|probably|unfortunately|sadly|just|simply|easily|sorry|amazing|next-gen|up to \d+ FPS|as much as|GPU|CPU|PSU|VRAM|RAM|BIOS|OC|MHz|TDP|XMP|EXPO|click here|dear|valued|do not reply|confidence|margin of error|minimum FPS|like new|mint|refurbished|free of charge)\b|±|!|(?<!\w)only (one|\d)/i

/** "Just ask." is an invitation, the one place where the word does not belittle. */
const withoutInvitation = (text: string): string =>
  text.replaceAll('Just ask.', '').replaceAll('Or just answer', 'Or answer')

function textsOf(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsOf) : []
}

test('the list catches what it is for', () => {
  for (const bad of ['Hurry!', 'up to 76 FPS', 'your GPU', 'only one left', 'a bottleneck'])
    expect(NEVER.test(bad), bad).toBe(true)
  expect(NEVER.test('Graphics cards up to 286 mm long')).toBe(false)
})

test('no word of the table is on it, and no rendered sentence', () => {
  const said = [...textsOf(ANSWER_EN), ...letters.flatMap(({ letter }) => proseOf(letter))]
  expect(said.map(withoutInvitation).filter((s) => NEVER.test(s))).toEqual([])
})
