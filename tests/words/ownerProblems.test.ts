import { describe, expect, test } from 'vitest'
import { LIMIT_COLUMNS } from '../../src/input/tables/machines.ts'
import { ENTERABLE, wordsOf } from '../../src/web/claimForm.ts'
import { figuresOfKind } from '../../src/web/partForm.ts'
import { IN_MIND_FIGURES } from '../../src/web/questionForm.ts'
import { allowedIn, ownerProblemKind, problemIn } from '../../src/words/ownerProblems.ts'
import { wordsIn } from '../../src/words/tables.ts'

describe('what a field takes is said in German', () => {
  const kinds = Object.entries(IN_MIND_FIGURES) as [Parameters<typeof figuresOfKind>[0], readonly string[]][]
  test.each([
    ...ENTERABLE.filter((key) => wordsOf(key) === undefined).map(
      (key) => [key, LIMIT_COLUMNS[key].cell.allowed] as const,
    ),
    ...kinds.flatMap(([kind, fields]) =>
      figuresOfKind(kind)
        .filter(({ field }) => fields.includes(field))
        .map(({ field, cell }) => [`${kind} ${field}`, cell.allowed] as const),
    ),
  ])('of every field that an owner meets: %s', (_, allowed) => {
    const said = allowedIn(allowed, 'de')
    expect(said).toBeDefined()
    expect(said).not.toMatch(/\b(a|of|from|to|or|lanes|such|characters|number)\b/)
    expect(allowedIn(allowed, 'en')).toBe(allowed)
  })

  test.each([
    ['a number from 1 to 1000 (mm)', 'eine Zahl von 1 bis 1000 (mm)'],
    ['a whole number from 1 to 32 (lanes)', 'eine ganze Zahl von 1 bis 32 (Datenwege)'],
    ['32 or 64', '32 oder 64'],
    ['at most 500 characters', 'höchstens 500 Zeichen'],
  ])('%s', (allowed, said) => {
    expect(allowedIn(allowed, 'de')).toBe(said)
  })

  test('what is chosen from a few words has German ones, but for names that are the same everywhere', () => {
    const { texts }: { readonly texts: Readonly<Record<string, string>> } = wordsIn('de').figures
    const untold = ENTERABLE.flatMap((key) => wordsOf(key) ?? []).filter((word) => texts[word] === undefined)
    // Versions of a standard, and plugs that go by one name in both languages.
    expect([...new Set(untold)]).toEqual([
      ...['ATX12V 2.x', 'ATX 3.0', 'ATX 3.1', '2.0', '1.2'],
      ...['DisplayPort', 'HDMI', 'DVI', 'VGA', 'USB-C'],
    ])
  })

  test('a way of saying it that nobody knows is left out, never shown in English', () => {
    expect(allowedIn('something quite else', 'de')).toBeUndefined()
  })
})

test.each([
  [{ field: 'wanted', code: 'missing' }, 'no games'],
  [{ field: 'wanted.2.setting', code: 'missing' }, 'no setting'],
  [{ field: 'photo', code: 'not allowed', allowed: 'a JPEG' }, 'photo too large'],
  [{ field: 'photo.7', code: 'not allowed' }, 'photos enough'],
  [{ field: 'tableFile', code: 'unreadable' }, 'no firmware table'],
  [{ field: 'budget', code: 'not a number', got: 'viel', allowed: 'x' }, 'not a number'],
  [{ field: 'targetFps', code: 'not allowed', got: '0', allowed: 'x' }, 'not allowed'],
  [{ field: 'anything', code: 'conflict' }, 'else'],
])('%o is one of a few kinds: %s', (problem, kind) => {
  expect(ownerProblemKind(problem)).toBe(kind)
})

test('what was typed is said back within the sentence, shortened, and never read as a hole of it', () => {
  const problem = {
    field: 'budget',
    code: 'not a number',
    got: '{allowed} viel',
    allowed: 'at most 5 characters',
    next: 'x',
  }
  expect(problemIn(problem, 'en')).toBe(problem)
  const said = problemIn(problem, 'de')
  expect(said.got).toBeUndefined()
  expect(said.next).toBe(
    '„{allowed} viel“ ist keine Zahl, die wir lesen können. Schreiben Sie höchstens 5 Zeichen.',
  )
  expect(problemIn({ ...problem, got: 'x'.repeat(9000) }, 'de').next.length).toBeLessThan(200)
})
