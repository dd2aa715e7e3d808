import { describe, expect, test } from 'vitest'
import type { Odd, OddGuess } from '../../src/core/gain/odd/odd.ts'
import { figuresFor } from '../../src/words/figures.ts'
import {
  meantOf,
  type OddNames,
  sayLooked,
  sayOdd,
  sayOddCount,
  sayOddKept,
  sayOddShort,
  sayRemark,
  sayReversal,
} from '../../src/words/odd.ts'

const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
const names: OddNames = { title: (id) => `<${id}>`, setting: (id) => `"${id}"`, part: (id) => `[${id}]` }
const plain = (text: string): string => text.replaceAll('\u00a0', ' ')
const odd = (...guesses: OddGuess[]): Odd => ({
  ...{ runId: 'R-1', expectedFps: 78.2, lowFps: 74.6, highFps: 81.2, agreeIds: [], fine: 0.01 },
  guesses: guesses.length === 0 ? [{ kind: 'unknown' }] : guesses,
})

/* What each cause says after a run was kept: what was expected, and what to do. No sentence blames for sure. */
const KEPT: readonly [OddGuess, string, string][] = [
  [
    { kind: 'digit', slip: 'ten times', fps: 88.1 },
    'That is about ten times the like. Perhaps the point is one place off: 88.1 FPS?',
    'a digit?',
  ],
  [
    { kind: 'digit', slip: 'a tenth', fps: 80 },
    'That is about a tenth of the like. Perhaps the point is one place off: 80 FPS?',
    'a digit?',
  ],
  [{ kind: 'digit', slip: 'swapped', fps: 78 }, 'Perhaps two digits changed places: 78 FPS?', 'a digit?'],
  [{ kind: 'digit', slip: 'digit twice', fps: 78 }, 'Perhaps a digit was typed twice: 78 FPS?', 'a digit?'],
  [{ kind: 'digit', slip: 'digit missing' }, 'Perhaps a digit is missing.', 'a digit?'],
  [
    { kind: 'slowed', side: 'processor' },
    'Something may have slowed the processor: another program, or the first run after a start. Close what runs beside it, run the title once to warm up, and measure again.',
    'slowed?',
  ],
  [
    { kind: 'slowed', side: 'card' },
    'Something may have slowed the card: heat, or a fan that stands. Look at its load temperature, and measure again.',
    'slowed?',
  ],
  [
    { kind: 'memory', channels: 1 },
    'It fits one memory channel. Look whether both modules are seen and sit in the slots that the board asks for.',
    'memory?',
  ],
  [
    { kind: 'memory', rateMts: 2133 },
    'It fits memory at 2133 MT/s, without its profile. Look in the firmware whether the profile is on.',
    'memory?',
  ],
  [
    { kind: 'setting', settingId: 'ultra' },
    'It fits “"ultra"” far better. Was that the setting?',
    'another setting?',
  ],
  [
    { kind: 'title', titleId: 'hollow' },
    'It fits <hollow> at that setting, which was run the same day. Were two rows mixed up?',
    'another title?',
  ],
  [
    { kind: 'machine', machineTag: 'M-7', processorId: 'P', cardId: 'C' },
    'It fits M-7 with [P] and [C]. Was that the machine?',
    'another machine?',
  ],
  [
    { kind: 'driver', driverVersion: '31.2', runIds: ['R-2'] },
    'Another run of this card with driver 31.2 is off in the same way (R-2). Try another driver version.',
    'the driver?',
  ],
  [
    { kind: 'driver', driverVersion: '31.2', runIds: ['R-2', 'R-3', 'R-4', 'R-5', 'R-6'] },
    'Other runs of this card with driver 31.2 are off in the same way (R-2, R-3, R-4, R-5). Try another driver version.',
    'the driver?',
  ],
  [
    { kind: 'again', runId: 'R-2' },
    'Nothing tells which of the two is right. Run it a third time.',
    'two runs disagree',
  ],
  [{ kind: 'unknown' }, 'Nothing we know of explains it. Run it again.', 'does not fit'],
]

describe('after a run was kept', () => {
  test.each(KEPT)('%j', (guess, says, short) => {
    const one = odd(guess)
    expect(plain(sayOddKept(one, names, figures))).toBe(`it does not fit; about 78 FPS are expected. ${says}`)
    expect(sayOddShort(one)).toBe(short)
    expect(plain(sayRemark(one, { titleId: 'lantern', averageFps: 880.5 }, names, figures))).toBe(
      `<lantern>: 880.5 FPS? About 78 FPS are expected. ${says}`,
    )
  })

  test('a figure is offered only where the likeliest cause tells it', () => {
    expect(meantOf(odd({ kind: 'digit', slip: 'a tenth', fps: 80 }))).toBe(80)
    expect(meantOf(odd({ kind: 'digit', slip: 'digit missing' }))).toBeUndefined()
    expect(meantOf(odd({ kind: 'unknown' }, { kind: 'digit', slip: 'a tenth', fps: 80 }))).toBeUndefined()
  })
})

describe('on the page of the run', () => {
  const said = (one: Odd, others: ReadonlyMap<string, number> = new Map()) => {
    const { off, why } = sayOdd(one, 61.24, others, names, figures)
    return [off, ...why].map(plain)
  }

  test('the interval is told outwards to whole frames; a second cause is an or', () => {
    expect(said(odd({ kind: 'setting', settingId: 'ultra' }, { kind: 'unknown' }))).toEqual([
      'It says 61.2 FPS. From all other runs about 78 FPS are expected, between 74 and 82 in four of five cases.',
      'It fits “"ultra"” far better. Was that the setting?',
      'Or: Nothing we know of explains it. Run it again.',
    ])
  })

  test('two that disagree name each other, and never which of them is right', () => {
    const two = odd({ kind: 'again', runId: 'R-2' })
    expect(said(two, new Map([['R-2', 80]]))[0]).toBe(
      'It says 61.2 FPS, and the other run of the same parts, title and setting says 80 FPS.',
    )
    // The other one may have been taken out meanwhile.
    expect(said(two)[0]).toContain('From all other runs about 78 FPS are expected')
  })

  test('what the same day says too asks for another day', () => {
    expect(said({ ...odd(), agreeIds: ['R-2'] }).at(-1)).toBe(
      'A run of the same day and machine says the same (R-2). Restart, and run it another day: then it is a fact.',
    )
    expect(said({ ...odd(), agreeIds: ['R-2', 'R-3'] }).at(-1)).toContain('say the same (R-2, R-3)')
  })
})

test('how many, and who looked when', () => {
  expect(sayOddCount(1, figures)).toBe('1 run to run again')
  expect(sayOddCount(12, figures)).toBe('12 runs to run again')
  const at = '2026-06-01T12:00:00.000Z'
  expect(plain(sayLooked({ at, by: 'mara' }, figures))).toBe(
    'Looked at on June 1, 2026 by mara: it is so. It is asked for again when there is other evidence.',
  )
  expect(plain(sayLooked({ at }, figures))).toContain('on June 1, 2026: it is so')
})

test('a part that is slower here than elsewhere is told as what was measured: a fact, or to be run once more', () => {
  const one = {
    ...{ titleId: 't', settingId: 's', slowerId: 'A', fasterId: 'B', slowerFps: 61.2, fasterFps: 70.4 },
    ...{ slowerRunIds: ['R-1'], fasterRunIds: ['R-2'], isFact: true },
  }
  const [says, fact] = sayReversal(one, names, figures)
  expect(plain(says)).toBe(
    '[A] makes 61 FPS here and [B] 70 FPS, with everything else the same. Over all titles it is the other way round.',
  )
  expect(fact).toContain('so it is a fact')
  expect(sayReversal({ ...one, isFact: false }, names, figures)[1]).toContain('Run both sides once more')
})
