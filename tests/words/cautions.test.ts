import { expect, test } from 'vitest'
import { CAUTION_IDS } from '../../src/core/fit/finding.ts'
import { cautionsForOpening, sayCaution } from '../../src/words/cautions.ts'

const sentencesOf = (text: string): string[] => text.split(/(?<=[.!?])\s+(?=[A-Z])/)

test.each(CAUTION_IDS)(
  '%s is an order in whole sentences, none over 22 words, without an exclamation',
  (id) => {
    const { short, long } = sayCaution(id)
    expect(long.length).toBeGreaterThan(short.length)
    for (const sentence of [...sentencesOf(short), ...sentencesOf(long)]) {
      expect(sentence).toMatch(/^[A-Z].*[.?]$/)
      expect(sentence.split(/\s+/).length, sentence).toBeLessThanOrEqual(22)
    }
  },
)

// Service manuals: unplug before opening; hold the button about 5 seconds; repair handbooks: parts inside a supply
// stay at fatal voltage; common practice: about 35 mm straight behind a 16-pin plug.
test.each([
  ['unplug', /mains plug/],
  ['discharge', /5 seconds/],
  ['psu-closed', /Never open the power supply.*kill/],
  ['psu-cables', /Never.*another supply/],
  ['seat-connector', /35 mm/],
  ['recovery-key', /recovery key.*pause.*on again/],
  ['no-power-loss', /Never cut the power/],
  ['one-way', /cannot be undone.*older processors/],
  ['defer', /stop.*licensed electrician/],
] as const)('%s says the point that matters', (id, point) => {
  expect(sayCaution(id).long).toMatch(point)
})

test('every opening has its cautions, once, in the order of the hands', () => {
  expect(cautionsForOpening([])).toEqual(['unplug', 'discharge', 'psu-closed', 'esd', 'defer'])
  expect(cautionsForOpening(['backup', 'esd', 'hot-parts', 'backup'])).toEqual([
    // Copying files needs the machine running: it stands before the power goes off.
    ...['backup', 'unplug', 'discharge', 'psu-closed', 'esd', 'hot-parts', 'defer'],
  ])
})
