import { describe, expect, test } from 'vitest'
import type { Fitted } from '../../src/core/gain/run.ts'
import type { RunSheet } from '../../src/uses/runs/runSheet.ts'
import { pathToSheet, sheetFor, withRow } from '../../src/web/sheetFor.ts'
import { readingOf } from '../../src/web/typed.ts'
import { inputs, parts, settings, titles, withModel } from './cannedShop.ts'
import { answerTo } from './serve.ts'

const READING = readingOf(2, 'UTC', 'USD')
const ran = inputs.runs[0]?.fitted as Fitted
const { memory, link, ...ids } = ran
/** A bench that ran last with everything set. */
const bench: RunSheet = {
  ...{ machines: [], titles, settings, parts, day: '2026-06-12', isToday: true, displayInBoard: false },
  ...{ inside: parts.filter(({ id }) => id === ids.processorId || id === ids.cardId), setAsIn: 'R-today-1' },
  fitted: {
    ...{ ...ids, ...memory, linkGen: link.gen, linkLanes: link.lanes },
    ...{ largeBar: true, processorLimitW: 88, cardLimitW: 120 },
  },
  remembered: {},
  rows: [],
}
const askedBy = (path: string) => {
  const { searchParams } = new URL(path, 'http://localhost')
  return (name: string) => searchParams.get(name) ?? undefined
}
const wanted = {
  ...{ titleId: 'lantern', settingId: '1440-ultra' },
  fitted: {
    ...{ processorId: 'CPU-HERON8', cardId: 'CRD-FLINT8', link: { gen: 3, lanes: 8 } },
    memory: { memoryType: 'DDR4', rateMts: 2666.5, channels: 2, totalGB: 32 },
  } as Fitted,
}

describe('a sheet that is asked for by its address', () => {
  test('says and fills in all that is run: parts, memory and link, as the link says them', () => {
    const sheet = sheetFor(bench, askedBy(pathToSheet(wanted)), READING)
    expect(sheet.fitted).toEqual({
      ...{ processorId: 'CPU-HERON8', cardId: 'CRD-FLINT8', linkGen: 3, linkLanes: 8 },
      ...{ memoryType: 'DDR4', rateMts: 2666.5, channels: 2, totalGB: 32 },
    })
    expect(sheet.inside.map(({ id }) => id).sort()).toEqual(['CPU-HERON8', 'CRD-FLINT8'])
    expect(sheet).not.toHaveProperty('setAsIn')
  })

  test('what was set for one part says nothing of another, and holds for those that stay', () => {
    const same = sheetFor(bench, askedBy(pathToSheet({ ...wanted, fitted: ran })), READING)
    expect(same.fitted).toEqual(bench.fitted)
    expect(same.setAsIn).toBe('R-today-1')
    const other = { ...ran, cardId: 'CRD-FLINT8' }
    const { fitted } = sheetFor(bench, askedBy(pathToSheet({ ...wanted, fitted: other })), READING)
    expect(fitted.processorLimitW).toBe(88)
    expect(fitted).not.toHaveProperty('cardLimitW')
    expect(fitted).not.toHaveProperty('largeBar')
  })

  test.each([
    [
      '/runs/new?processorId=NOBODY&cardId=CPU-HERON8',
      'names that the shop does not have, or of another kind',
    ],
    ['/runs/new?totalGB=-4&rateMts=x&channels=0&linkGen=99&memoryType=PAPER', 'figures that cannot be'],
    ['/runs/new?title=lantern', 'no figure at all'],
    ['/runs/new?processorId=&cardId=&totalGB=', 'empty ones'],
  ])('%s: %s change nothing', (path) => {
    expect(sheetFor(bench, askedBy(path), READING).fitted).toEqual(bench.fitted)
  })
})

describe('its row', () => {
  const typed = new Map([
    ['rows', ['2']],
    ['title.0', ['quarrymen']],
    ['setting.0', ['1080-high']],
    ['title.1', ['hollow']],
    ['setting.1', ['1080-high']],
  ])
  const rowIn = (from: ReadonlyMap<string, readonly string[]>, title: string, setting: string) => {
    const fields = withRow(from, bench, askedBy(`/runs/new?title=${title}&setting=${setting}`))
    const rows = Number(fields.get('rows')?.[0])
    return Array.from({ length: rows }, (_, n) =>
      [fields.get(`title.${n}`)?.[0], fields.get(`setting.${n}`)?.[0]].join(' '),
    )
  }

  test('a title that is listed keeps its row and takes the setting; another one gets a row of its own', () => {
    expect(rowIn(typed, 'hollow', '1440-ultra')).toEqual(['quarrymen 1080-high', 'hollow 1440-ultra'])
    expect(rowIn(typed, 'lantern', '1440-ultra')).toEqual([
      'quarrymen 1080-high',
      'hollow 1080-high',
      'lantern 1440-ultra',
    ])
  })

  test('an empty sheet takes it into its one row', () => {
    expect(rowIn(new Map([['rows', ['1']]]), 'lantern', '1440-ultra')).toEqual(['lantern 1440-ultra'])
  })

  test('a title or setting that nobody described changes nothing of it', () => {
    expect(rowIn(typed, 'nowhere', '1440-ultra')).toEqual(rowIn(typed, '', ''))
    expect(rowIn(typed, 'hollow', 'nowhere')).toEqual(['quarrymen 1080-high', 'hollow 1080-high'])
  })

  test('a new row starts from the newest version of its title', () => {
    const versions = [
      { version: '1.0', at: '2025-01-01T00:00:00Z' },
      { version: '2.0', at: '2026-01-01T00:00:00Z' },
    ]
    const sheet = { ...bench, titles: titles.map((title) => ({ ...title, versions })) }
    const fields = withRow(typed, sheet, askedBy('/runs/new?title=lantern&setting=1080-high'))
    expect(fields.get('titleVersion.2')).toEqual(['2.0'])
    expect(fields.has('titleVersion.0')).toBe(false)
  })
})

test('the page says the very parts that it will keep', async () => {
  const html = await (await answerTo({ name: 'sheet', path: pathToSheet(wanted) })).text()
  const told = /What ran<\/h2>(.*?)<details/s.exec(html)?.[1] ?? ''
  for (const name of ['Heron', 'Flint 8G']) expect(told).toContain(name)
  expect(told).not.toContain('Pebble')
  expect(html).toMatch(/<option value="CRD-FLINT8"[^>]*selected/)
  expect(html).toMatch(/name="totalGB"[^>]*value="32"/)
})

describe('where a number is refused, the run that would tell is a link to its sheet', () => {
  const few = withModel({ ...inputs, runs: inputs.runs.filter(({ titleId }) => titleId === 'quarrymen') })
  const linksOn = async (path: string, from = few) => {
    const html = await (await answerTo({ name: path, path, inputs: from })).text()
    return [...html.matchAll(/href="(\/runs\/new\?[^"]+)"/g)].map(
      (m) => new URLSearchParams((m[1] ?? '').replaceAll('&amp;', '&').split('?')[1]),
    )
  }

  test.each([
    ['/questions/Q-0007', 'on the page of the question'],
    ['/questions/Q-0007/why?option=S-1', 'on the page of why'],
  ])('%s: %s', async (path) => {
    const links = await linksOn(path)
    expect(links.length).toBeGreaterThan(0)
    for (const link of links) {
      expect(titles.map(({ id }) => id)).toContain(link.get('title'))
      expect(settings.map(({ id }) => id)).toContain(link.get('setting'))
      expect(parts.map(({ id }) => id)).toContain(link.get('processorId'))
      // On the machine itself where it has these parts, else on a bench.
      const isOwn = link.get('cardId') === 'CRD-PEBBLE4' && link.get('totalGB') === '8'
      expect(link.get('machine')).toBe(isOwn && link.get('processorId') === 'CPU-TEAL6' ? 'T-0007' : '')
    }
    for (const title of ['lantern', 'hollow']) expect(links.map((link) => link.get('title'))).toContain(title)
    expect(links.map((link) => link.get('machine'))).toContain('T-0007')
  })

  test('where every title has a number there is none', async () => {
    const links = await linksOn('/questions/Q-0007/why?option=S-1', withModel(inputs))
    expect(links).toEqual([])
  })
})
