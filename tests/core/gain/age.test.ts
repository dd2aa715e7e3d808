import { describe, expect, test } from 'vitest'
import { ageOf, versionsOf, withVersions } from '../../../src/core/gain/age.ts'
import type { Title } from '../../../src/core/gain/run.ts'

const title: Title = {
  ...{ id: 't', name: 'Invented' },
  versions: [
    { version: '1.0', at: '2025-01-01T12:00:00.000Z' },
    { version: '1.1', at: '2026-03-01T12:00:00.000Z' },
  ],
}
const policy = { runWindowDays: 400 }
const NOW = '2026-11-30T12:00:00.000Z'

// Days by hand (proleptic Gregorian calendar): 2026-11-30 less 400 days is 2025-10-26.
test.each([
  ['1.1', '2026-11-29T12:00:00.000Z', 'current', 'yesterday, the newest version'],
  ['1.0', '2026-11-29T12:00:00.000Z', 'older version', 'yesterday, on a version that was left'],
  ['1.0', '2025-02-01T12:00:00.000Z', 'older version', 'both kinds of old: the version says more'],
  ['1.1', '2025-10-26T12:00:00.000Z', 'current', 'exactly 400 days'],
  ['1.1', '2025-10-26T11:59:59.999Z', 'outside the window', 'a moment more'],
  ['0.9', '2026-02-28T12:00:00.000Z', 'older version', 'not listed, before the newest came out'],
  ['1.2', '2026-11-29T12:00:00.000Z', 'current', 'not listed yet, after it'],
  ['1.1', '2027-01-01T12:00:00.000Z', 'current', 'dated later than now'],
] as const)('a run of %s on %s is %s', (titleVersion, at, age, why) => {
  expect(ageOf({ titleVersion, at }, title, policy, NOW), why).toBe(age)
})

test('a version that is yet to come makes nothing older', () => {
  const run = { titleVersion: '1.0', at: '2026-02-01T12:00:00.000Z' }
  expect(ageOf(run, title, policy, '2026-02-28T12:00:00.000Z')).toBe('current')
  expect(ageOf(run, title, policy, '2026-03-01T12:00:00.000Z')).toBe('older version')
})

test('a title without versions makes no run older', () => {
  const run = { titleVersion: '0.1', at: '2026-11-01T12:00:00.000Z' }
  expect(ageOf(run, undefined, policy, NOW)).toBe('current')
  expect(ageOf(run, { versions: [] }, policy, NOW)).toBe('current')
  expect(ageOf({ ...run, at: '2020-01-01T12:00:00.000Z' }, undefined, policy, NOW)).toBe('outside the window')
})

describe('versions as runs tell them', () => {
  const run = (titleVersion: string, day: string) => ({ titleVersion, at: `${day}T12:00:00.000Z` })
  test('each from its first run on, the one that was run last is the newest', () => {
    const runs = [
      run('2.1', '2026-02-01'),
      run('2.0', '2025-01-01'),
      run('2.0', '2025-06-01'),
      run('2.1', '2026-05-01'),
    ]
    expect(versionsOf(undefined, runs)).toEqual([
      { version: '2.0', at: '2025-01-01T12:00:00.000Z' },
      { version: '2.1', at: '2026-02-01T12:00:00.000Z' },
    ])
    expect(versionsOf(undefined, [...runs].reverse())).toEqual(versionsOf(undefined, runs))
  })
  test('the title’s own list comes first', () => {
    expect(versionsOf(title, [run('9', '2026-01-01')])).toBe(title.versions)
  })
  test('runs of other titles say nothing', () => {
    const bare: Title = { id: 't', name: 'Invented' }
    expect(withVersions(bare, []).versions).toEqual([])
  })
})
