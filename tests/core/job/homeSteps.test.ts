import { expect, test } from 'vitest'
import type { Step } from '../../../src/core/job/checklist.ts'
import { homeSteps } from '../../../src/core/job/homeSteps.ts'
import { homeSheetOf, homeSheetText } from '../../../src/words/homeSheet.ts'

const step = (what: Step['what'], ref = '', cautions: Step['cautions'] = []) => ({ what, ref, cautions })

/** The checklist of a card with a firmware update: what hands do, and what follows from what is recorded. */
const STEPS = [
  step('work', 'firmware update', ['no-power-loss']),
  step('opening', '', ['unplug', 'discharge', 'psu-closed', 'esd', 'defer']),
  step('take out', 'OLD'),
  step('work', 'move front fan', ['hot-parts']),
  step('fit', 'CARD', ['one-cable']),
  step('work', 'driver clean-up', ['backup']),
  step('work', 'a work of the shop’s own'),
  step('measure', 'tern@high'),
  step('test what came out', 'OLD'),
  step('settle'),
  step('tell the owner'),
].map((s, position) => ({ ...s, position }))

test('what hands do stays, in its order; firmware, and a work that no catalogue knows, stay the shop’s', () => {
  expect(homeSteps(STEPS).map(({ what, ref, by }) => [by, what, ref])).toEqual([
    ['shop', 'work', 'firmware update'],
    ['owner', 'opening', ''],
    ['owner', 'take out', 'OLD'],
    ['owner', 'work', 'move front fan'],
    ['owner', 'fit', 'CARD'],
    ['owner', 'work', 'driver clean-up'],
    ['shop', 'work', 'a work of the shop’s own'],
  ])
})

test('each caution stands once, where it is first needed; those of a firmware update are not the owner’s', () => {
  const twice = [
    step('work', 'pause encryption', ['recovery-key', 'backup']),
    step('opening', '', ['backup', 'unplug', 'recovery-key', 'defer', 'esd']),
    step('fit', 'CPU', ['backup', 'no-power-loss', 'one-way', 'hot-parts']),
  ]
  expect(homeSteps(twice).map(({ cautions }) => cautions)).toEqual([
    ['backup', 'recovery-key'],
    ['unplug', 'esd', 'hot-parts', 'defer'],
    [],
  ])
})

const NAMES: Readonly<Record<string, string>> = { OLD: 'Pebble 4G', CARD: 'Flint 8G' }
const sheet = homeSheetOf('M-0001', STEPS, (id) => NAMES[id] ?? id)

test('the sheet has each step with its cautions in full, and what is not for the owner before them', () => {
  expect(sheet?.ours?.says).toContain('Firmware update, a work of the shop’s own')
  expect(sheet?.steps.map(({ what }) => what)).toEqual([
    'Open the machine',
    'Take out: Pebble 4G',
    'Moving the front fan',
    'Fit: Flint 8G',
    'Cleaning up the display drivers',
  ])
  // Service manuals and handbooks: never open a supply; unplug before hands go in.
  expect(sheet?.steps[0]?.cautions.join(' ')).toMatch(/pull the mains plug.*Never open the power supply/)
  expect(sheet?.steps[3]?.cautions.join(' ')).toContain('a cable of its own')
  expect(sheet?.end.join(' ')).toMatch(/If it does not start: switch it off, pull the mains plug/)
})

test('as text it says the same, line by line, and a job without anything for the owner has no sheet', () => {
  const text = sheet === undefined ? '' : homeSheetText(sheet)
  for (const said of [sheet?.about, sheet?.ours?.says, ...(sheet?.end ?? [])]) expect(text).toContain(said)
  for (const { what, cautions } of sheet?.steps ?? [])
    for (const said of [what, ...cautions]) expect(text).toContain(said)
  expect(text).toMatch(/^1\. Open the machine$/m)
  expect(homeSheetOf('M-0001', STEPS.slice(0, 1), (id) => id)).toBeUndefined()
})
