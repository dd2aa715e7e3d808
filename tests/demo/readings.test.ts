import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { FirmwareTable } from '../../src/core/firmwareTable/table.ts'
import { readFirmware } from '../../src/input/firmwareBytes.ts'
import { viewReading } from '../../src/uses/readTable.ts'
import { acceptReading } from '../../src/uses/readTableAccept.ts'
import { viewMachine } from '../../src/uses/views.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { sayTableChange } from '../../src/words/firmwareTable.ts'
import { DEMO_READINGS, DEMO_READINGS_FOLDER } from '../core/firmwareTable/demoReadings.ts'
import { type DemoShop, openDemoShop } from './openDemoShop.ts'

const AT = '2026-11-25T12:00:00.000Z'
const figures = figuresFor({ locale: 'en-US', timeZone: 'UTC', policy: { currency: 'USD' } })
let shop: DemoShop
beforeAll(async () => {
  shop = await openDemoShop()
})
afterAll(() => shop.close())

const fileNamed = (name: string): FirmwareTable => {
  const read = readFirmware(new Uint8Array(readFileSync(join(DEMO_READINGS_FOLDER, name))), 'table')
  if (!read.ok) throw new Error(read.problems[0]?.next)
  return read.value
}

test('the files are what the generator writes', () => {
  const files = readdirSync(DEMO_READINGS_FOLDER).sort()
  expect(files).toEqual(Object.keys(DEMO_READINGS).sort())
  for (const name of files)
    expect(readFileSync(join(DEMO_READINGS_FOLDER, name), 'utf8'), `npm run readings: ${name}`).toBe(
      DEMO_READINGS[name],
    )
})

test('on the day of sale the table agrees with the parts, and gets the maximum and the places wrong', async () => {
  const found = await viewReading(shop.store, 'M-0207', fileNamed('M-0207-at-sale.txt'))
  if (!found.ok) throw new Error(found.problems[0]?.next)
  const { parts, limits } = found.value.proposal
  expect(parts.map(({ kind, standing }) => [kind, standing])).toEqual([
    ['board', 'agrees'],
    ['processor', 'agrees'],
    ['memory', 'agrees'],
  ])
  expect(limits.map(({ key, value, counted, standing }) => [key, value, counted, standing])).toEqual([
    ['firmware', '1.20', true, 'agrees'],
    ['memoryType', 'DDR4', true, 'agrees'],
    ['memoryRunsMts', 2666, true, 'new'],
    ['slotLanes', 16, true, 'agrees'],
    ['trustModule', '2.0', true, 'new'],
    ['memorySlots', 4, false, 'differs'],
    ['memoryMaxGB', 32, false, 'differs'],
  ])
})

test('a year later a second module is there, and goes into the history when somebody says so', async () => {
  const { store } = shop
  const [before, now] = [fileNamed('M-0207-at-sale.txt'), fileNamed('M-0207-a-year-later.txt')]
  const seen = async (table: FirmwareTable) => {
    const found = await viewReading(store, 'M-0207', table)
    if (!found.ok) throw new Error(found.problems[0]?.next)
    return found.value
  }
  const { basis } = await seen(before)
  expect(
    (await acceptReading(store, 'M-0207', before, { basis, parts: new Map(), limits: new Set() }, AT)).ok,
  ).toBe(true)
  const later = await seen(now)
  expect(
    later.earlier?.changes.map((change) => sayTableChange(change, figures).replaceAll('\u00a0', ' ')),
  ).toEqual([
    'A second module was added: 8 GB DDR4 PP8-2666 in BANK 2 ChannelB-DIMM0.',
    'Firmware 1.40 instead of 1.20.',
  ])
  const added = later.proposal.parts.find(({ standing }) => standing === 'added')
  expect(added?.read).toMatchObject({ knownId: 'MEM-1X8-2666', name: 'Pannikin Plain 8 GB DDR4-2666' })
  const choices = {
    basis: later.basis,
    parts: new Map([[added?.id ?? '', { does: 'changed' as const }]]),
    limits: new Set(['limit.firmware', 'limit.modulesInBothChannels']),
  }
  expect(await acceptReading(store, 'M-0207', now, choices, AT)).toMatchObject({
    ok: true,
    value: { taken: 3, newParts: 0 },
  })
  const view = await viewMachine(store, 'M-0207', AT)
  if (!view.ok) throw new Error('no machine')
  const sticks = view.value.history.filter(({ part }) => part.id === 'MEM-1X8-2666')
  expect(sticks.map(({ fittedAt }) => fittedAt?.slice(0, 10))).toEqual(['2025-12-12', '2026-11-25'])
  expect(view.value.limits.modulesInBothChannels).toMatchObject({ value: 'yes', by: { source: 'read' } })
  expect(view.value.limits.firmware).toMatchObject({ value: '1.40', by: { source: 'read' } })
})
