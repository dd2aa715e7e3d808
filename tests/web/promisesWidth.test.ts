import { describe, expect, test } from 'vitest'
import { failed, ok } from '../../src/problem.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { MEASURE_STATES, promisesOf } from './cannedMeasure.ts'
import { inputs, withModel } from './cannedShop.ts'
import { answerTo } from './serve.ts'
import { asStaff } from './signedIn.ts'
import type { PageState } from './states.ts'

const page = async (state: Omit<PageState, 'name'>) => {
  const answer = await answerTo({ name: state.path, ...state })
  const html = await answer.text()
  const text = html.replace(/<[^>]+>/g, ' ').replace(/[\s\u00a0]+/g, ' ')
  return { status: answer.status, to: answer.headers.get('location'), html, text }
}
const narrow: Partial<WebUses> = { promises: async () => promisesOf(90, 5) }
const factor = promisesOf(90, 5).width.proposal?.factor ?? Number.NaN

describe('the width of intervals', () => {
  test('is proposed with old and new side by side; the form carries what was looked at', async () => {
    const { html, text } = await page({ path: '/promises', uses: narrow })
    expect(text).toContain(`The promises call for intervals ${factor} times as wide as the model gives them.`)
    expect(text).toMatch(/As the model gives them .* 45 of 90 .* times as wide .* 90 of 90/)
    expect(html).toContain(`name="factor" value="${factor}"`)
    expect(html).toContain('name="was" value="1"')
    expect(text).toContain('a spoilt run is no reason for other intervals')
  })

  test('staff sees it and has no button; the owner of the shop decides', async () => {
    const { html, text } = await page({ path: '/promises', uses: narrow, as: asStaff.everybodyIs })
    expect(text).toContain(`${factor} times as wide`)
    expect(html).not.toContain('action="/promises/width"')
    expect(text).toContain('The owner of the shop decides this')
    const form = { was: '1', factor: `${factor}` }
    expect((await page({ path: '/promises/width', form, as: asStaff.everybodyIs })).status).toBe(403)
  })

  test('taken as it was looked at, by whom', async () => {
    const given: unknown[] = []
    const uses: Partial<WebUses> = {
      takeWidth: async (...seen) => {
        given.push(seen)
        return ok({ factor })
      },
    }
    const form = { was: '1', factor: '1.23' }
    expect(await page({ path: '/promises/width', form, uses })).toMatchObject({
      status: 303,
      to: '/promises#width',
    })
    expect(given).toEqual([[{ was: 1, factor: 1.23 }, 'Ada']])
    // Spoiled figures match no proposal.
    for (const spoiled of [{}, { was: 'x', factor: '1.2' }, { was: '1', factor: '-2' }])
      await page({ path: '/promises/width', form: { ...spoiled, more: '' } as Record<string, string>, uses })
    expect(given.slice(1)).toEqual([
      [{ was: 0, factor: 0 }, 'Ada'],
      [{ was: 0, factor: 1.2 }, 'Ada'],
      [{ was: 1, factor: 0 }, 'Ada'],
    ])
  })

  test('a proposal that has moved on is refused with what to do', async () => {
    const next = 'Look at it again.'
    const uses: Partial<WebUses> = {
      takeWidth: async () => failed({ code: 'conflict', field: 'factor', next }),
      takeBackWidth: async () => failed({ code: 'conflict', field: 'step', next }),
    }
    for (const path of ['/promises/width', '/promises/width/back']) {
      const { status, text } = await page({ path, form: { was: '1', factor: '1.2', step: '1' }, uses })
      expect(status).toBe(409)
      expect(text).toContain(next)
    }
  })

  test('in force: since when, on what it stands, and the way back', async () => {
    const state = MEASURE_STATES.find(({ name }) => name === 'promises-widened')
    if (state === undefined) throw new Error('no such state')
    const { html, text } = await page(state)
    expect(text).toContain(`intervals are ${factor} times as wide as the gain model gives them.`)
    expect(text).toContain('It stands on 90 promises of 90 jobs')
    expect(html).toMatch(/action="\/promises\/width\/back".*name="step" value="1"/s)
    expect(text).toContain('Then intervals are again as the model gives them.')
  })
})

describe('the page of why', () => {
  const whole = withModel(inputs)
  const why = async (widthFactor: number | undefined) => {
    const gain = whole.gain && { ...whole.gain, ...(widthFactor !== undefined && { widthFactor }) }
    return (await page({ path: '/questions/Q-0007/why?option=S-1', inputs: { ...whole, gain } })).text
  }
  const widthIn = (text: string): number => {
    const found = /eight of ten ([\d.]+) to ([\d.]+)/.exec(text)
    return Math.log(Number(found?.[2]) / Number(found?.[1]))
  }

  test('tells a width in force beside the intervals that count with it, and nothing without one', async () => {
    const [plain, wide] = [await why(undefined), await why(1.5)]
    expect(plain).not.toContain('times as wide')
    expect(wide).toContain('They are 1.5 times as wide as the model gives them')
    // The page rounds to a tenth of a frame.
    expect(widthIn(wide) / widthIn(plain)).toBeCloseTo(1.5, 1)
  })
})
