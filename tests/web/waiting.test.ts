import { expect, test } from 'vitest'
import type { FitProgress } from '../../src/uses/gain/keptFit.ts'
import { inputs, withModel } from './cannedShop.ts'
import { cannedUses } from './cannedUses.ts'
import { fittingUses } from './fittingUses.ts'
import { answerTo } from './serve.ts'
import type { PageState } from './states.ts'

const FITTING: FitProgress = { runs: 20_000, sinceMs: 2300, usualMs: 5100 }
const ask = (state: Omit<PageState, 'name'>) => answerTo({ name: state.path, ...state })
const wordsOf = (html: string): string =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replace(/[\s\u00a0]+/g, ' ')

test('a question whose estimates are being computed shows what was measured, says so, and comes again by itself', async () => {
  const whole = await ask({ path: '/questions/Q-0007', inputs: withModel(inputs) })
  expect(whole.headers.get('refresh')).toBeNull()
  const page = await ask({ path: '/questions/Q-0007?option=S-1', uses: fittingUses(FITTING) })
  expect(page.status).toBe(200)
  expect(page.headers.get('refresh')).toBe('2')
  const html = await page.text()
  const words = wordsOf(html)
  expect(words).toContain('Being computed: what our runs say together.')
  expect(words).toContain('From 20000 runs, for 2 s now. The last time it took 5 s.')
  expect(html).toMatch(/<progress[^>]*aria-label="How far it is"/)
  // The words of the question, the machine and what was measured are there already.
  expect(words).toContain(inputs.question.words)
  expect(words).toContain('Flint 8')
  expect(html, 'no form: the page would take away what is typed').not.toMatch(/<form[^>]*action="\/questions/)
  expect(html, 'no yes to a number that is not there yet').not.toContain('/yes')
})

test('a fit that takes long is not asked after as often', async () => {
  const after = async (sinceMs: number) =>
    (await ask({ path: '/questions/Q-0007', uses: fittingUses({ ...FITTING, sinceMs }) })).headers.get(
      'refresh',
    )
  expect([await after(1000), await after(20_000), await after(600_000)]).toEqual(['2', '5', '10'])
})

test.each(['/questions/Q-0007/why?option=S-1', '/questions/Q-0007/yes?option=S-1'])(
  '%s is nothing without its numbers: it says how far they are and comes again by itself',
  async (path) => {
    const page = await ask({ path, uses: fittingUses(FITTING) })
    expect([page.status, page.headers.get('refresh')]).toEqual([200, '2'])
    const html = await page.text()
    expect(wordsOf(html)).toContain('Working out the numbers')
    expect(html, 'the same page, its option kept').toContain(`href="${path}"`)
  },
)

test.each([
  ['/questions/Q-0007/message', { optionId: 'S-1' }],
  ['/questions/Q-0007/yes', { option: 'S-1', fittedBy: 'shop', note: 'rang twice' }],
])('a form sent to %s meanwhile does nothing, and stands ready to be sent again', async (path, form) => {
  const page = await ask({ path, form, uses: fittingUses(FITTING) })
  expect([page.status, page.headers.get('retry-after')]).toEqual([503, '2'])
  expect(page.headers.get('refresh'), 'a form is never sent by itself').toBeNull()
  const html = await page.text()
  expect(wordsOf(html)).toContain('Nothing was kept yet')
  expect(html).toContain(`<form method="post" action="${path}"`)
  for (const [name, value] of Object.entries(form))
    expect(html).toContain(`<input type="hidden" name="${name}" value="${value}"`)
  expect(wordsOf(html)).toContain('Send it again')
})

test('the fit is done between two looks: the form is offered again all the same', async () => {
  const uses = { ...fittingUses(FITTING), fitUnderWay: async () => undefined }
  const page = await ask({ path: '/questions/Q-0007/message', form: { optionId: 'S-1' }, uses })
  expect(page.status).toBe(503)
  expect(await page.text()).toContain('name="optionId" value="S-1"')
})

test('the list of questions shows itself at once, and says which answer is being computed', async () => {
  const { uses } = cannedUses({ inputs })
  const view = await uses.questions()
  const [line] = view.waiting
  if (line === undefined) throw new Error('no question waits')
  const resumed = [{ ...line, arrivedLimits: ['cardRoomMm' as const], isBeingFitted: true as const }]
  const page = await ask({
    path: '/',
    uses: { questions: async () => ({ ...view, resumed }), fitUnderWay: async () => FITTING },
  })
  expect(page.headers.get('refresh')).toBe('2')
  expect(wordsOf(await page.text())).toContain('Its new answer is being computed.')
  expect((await ask({ path: '/' })).headers.get('refresh')).toBeNull()
})

test.each(['answer', 'ranking'])('a program that asks for the %s is told when to ask again', async (what) => {
  const path = `/api/v1/questions/Q-0007/${what}`
  const told = await ask({ path, uses: fittingUses(FITTING) })
  expect(told.status).toBe(503)
  expect(Number(told.headers.get('retry-after'))).toBeGreaterThan(0)
  const { problems } = (await told.json()) as { problems: unknown[] }
  expect(problems).toMatchObject([
    { code: 'busy', field: 'gain', next: expect.stringContaining('20000 runs') },
  ])
  // A fit that began after the first look counts too.
  const late = await ask({ path, uses: { ...fittingUses(FITTING), fitUnderWay: async () => undefined } })
  expect(late.status).toBe(503)
  const found = await ask({ path, uses: { fitUnderWay: async () => undefined } })
  expect(found.status).toBe(200)
})

test('a program is told that the fit failed', async () => {
  const path = '/api/v1/questions/Q-0007/ranking'
  const without = await ask({ path, inputs: { ...inputs, gainFailed: true } })
  expect(await without.json()).toMatchObject({ gainFailed: true })
  expect(await (await ask({ path, inputs })).json()).not.toHaveProperty('gainFailed')
  const answer = await ask({
    path: '/api/v1/questions/Q-0007/answer',
    inputs: { ...inputs, gainFailed: true },
  })
  expect(await answer.json()).toMatchObject({ ranking: { gainFailed: true } })
})
