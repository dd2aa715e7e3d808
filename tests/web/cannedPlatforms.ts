import { type Look, planLook } from '../../src/core/reach/look.ts'
import { failed, ok } from '../../src/problem.ts'
import type { LookView } from '../../src/uses/reach/looks.ts'
import type { PlatformsUses } from '../../src/web/platformsUses.ts'
import { TWO } from '../core/reach/twoPlatforms.ts'
import { NOW } from './cannedShop.ts'
import type { PageState } from './states.ts'

/** The hand-worked platforms, with years to come. */
const INPUTS = {
  ...TWO,
  ask: { ...TWO.ask, upToMinor: 40_000, scenario: { pricesFallPct: 10, heavierPct: 8, years: 3 } },
}
const { parts, shelf } = INPUTS.shop
const TITLES = [{ id: 'harbor', name: 'Harbor' }]
const SETTINGS = [
  {
    ...{ id: '1080-high', widthPx: 1920, heightPx: 1080, preset: 'high' },
    ...{ rayTracing: false, frameGeneration: false },
  },
]

let planned: Look | undefined
/** Worked out once. */
const plan = (): Look => {
  planned ??= planLook(INPUTS)
  return planned
}

/** As if neither ever ran: bounds for the one, no number at all for the other. */
function neverBuilt(look: Look): Look {
  const [a, b] = look.reach.platforms
  if (a === undefined || b === undefined) return look
  const points = a.now.points.map((point) => ({
    ...{ ...point, isBound: true, low: point.fps * 0.55, high: point.fps * 1.8 },
  }))
  const untold = { ...b.now, points: [], untoldTitleIds: ['harbor'] }
  const platforms = [
    { ...a, now: { ...a.now, points } },
    { ...b, now: untold, nowOnThisBoard: untold, later: untold },
  ]
  return { ...look, reach: { ...look.reach, platforms, savings: [] } }
}

export function cannedLook(id: string): LookView {
  const view = {
    ...{ asked: { ask: INPUTS.ask, typed: [] }, parts, titles: TITLES, settings: SETTINGS },
    work: { id, kind: 'reach', name: 'A or B', askedAt: NOW, state: 'done' } as const,
  }
  if (id === '2') return { ...view, work: { ...view.work, state: 'under way' }, progress: { done: 1, of: 6 } }
  if (id === '3') return { ...view, work: { ...view.work, state: 'failed' } }
  if (id === '4') return { ...view, work: { ...view.work, state: 'called off' } }
  if (id === '5') return { ...view, work: { ...view.work, state: 'waiting' } }
  return { ...view, look: id === '6' ? neverBuilt(plan()) : plan() }
}

/** Plans of the hand-worked platforms; `calls` notes what was asked to change. */
export const cannedPlatformsUses = (calls: unknown[][]): PlatformsUses => ({
  looks: async () => ({
    ...{ parts, shelf, titles: TITLES, settings: SETTINGS },
    findable: [
      {
        ...{ id: 'F-0001', partId: 'CPU-B', condition: 'used', lowMinor: 6000, highMinor: 7500, at: NOW },
      },
    ],
    runCounts: [],
    looks: [
      { id: '2', kind: 'reach', name: 'Two for the winter', askedAt: NOW, state: 'under way' },
      { id: '1', kind: 'reach', name: 'A or B', askedAt: NOW, state: 'done' },
    ],
  }),
  askLook: async (asked, name) => {
    calls.push(['askLook', asked, name])
    return ok({ id: '2' })
  },
  look: async (id) =>
    Number(id) >= 1 && Number(id) <= 6
      ? ok(cannedLook(id))
      : failed({ code: 'not found', field: 'platforms', got: id, next: 'There is no such plan.' }),
  callOffLook: async (id) => {
    calls.push(['callOffLook', id])
  },
  forgetLook: async (id) => {
    calls.push(['forgetLook', id])
    return ok({ id })
  },
})

/** A shop that holds nothing yet. */
export const NO_PLANS: Partial<PlatformsUses> = {
  looks: async () => ({
    parts: [],
    shelf: [],
    findable: [],
    titles: [],
    settings: [],
    runCounts: [],
    looks: [],
  }),
}

export const PLATFORMS_STATES: readonly PageState[] = [
  { name: 'platforms', path: '/platforms' },
  { name: 'platforms-nothing', path: '/platforms', uses: NO_PLANS },
  { name: 'platforms-done', path: '/platforms/1' },
  { name: 'platforms-under-way', path: '/platforms/2' },
  { name: 'platforms-failed', path: '/platforms/3' },
  { name: 'platforms-called-off', path: '/platforms/4' },
  { name: 'platforms-waiting', path: '/platforms/5' },
  { name: 'platforms-never-built', path: '/platforms/6' },
  { name: 'platforms-none', path: '/platforms/99', status: 404 },
  {
    name: 'platforms-wrong',
    path: '/platforms',
    form: { 'platform.0.board': 'B550 board', years: 'many', do: 'start' },
    status: 422,
  },
  { name: 'platforms-more', path: '/platforms', form: { count: '2', do: 'more' } },
]
