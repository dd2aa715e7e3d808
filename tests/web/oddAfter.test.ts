import { describe, expect, test } from 'vitest'
import { MEASURE_STATES, ODD_LATER } from './cannedMeasure.ts'
import { answerTo } from './serve.ts'

/* What is remarked of runs after they were kept: on the page of their job, and where a table brought them. */
async function textOf(name: string): Promise<{ html: string; text: string }> {
  const state = [...MEASURE_STATES, ...ODD_LATER].find((one) => one.name === name)
  if (state === undefined) throw new Error(`no state ${name}`)
  const html = await (await answerTo(state)).text()
  return { html, text: html.replace(/<[^>]+>/g, ' ').replace(/[\s\u00a0]+/g, ' ') }
}
const SAYS =
  'it does not fit; about 68 FPS are expected. That is about ten times the like. Perhaps the point is one place off: 68.5 FPS?'

describe('the page of a job', () => {
  test('a run of it that does not fit is named, with what would explain it and the way to put it right', async () => {
    const { html, text } = await textOf('job-odd')
    expect(text).toContain(`To run again R-flint-1 : ${SAYS}`)
    expect(html).toContain('href="/runs/R-flint-1#odd"')
    // Below the promises it is measured for, above the form for another run.
    const at = (what: string) => html.indexOf(what)
    expect(at('/runs/R-flint-1#odd')).toBeGreaterThan(at('four of five results lie'))
    expect(at('/runs/R-flint-1#odd')).toBeLessThan(at('id="run"'))
  })

  test('while nobody knows yet it says so, and names nothing', async () => {
    const { html, text } = await textOf('job-odd-waiting')
    expect(text).toContain('Which runs do not fit is being worked out.')
    expect(html).not.toContain('#odd"')
  })
})

describe('after an import of runs', () => {
  test('those that do not fit, each with its cause, and the list of them', async () => {
    const { html, text } = await textOf('import-odd')
    expect(text).toContain(`R-flint-1 : ${SAYS}`)
    expect(html).toContain('<a href="/runs?fits=again">1 run to run again</a>')
  })

  test('none: it says that every run fits', async () => {
    expect((await textOf('import-odd-none')).text).toContain('Every run fits what the others say.')
  })

  test('while it is being worked out it says so', async () => {
    expect((await textOf('import-odd-waiting')).text).toContain('Which runs do not fit is being worked out.')
  })

  test('of other tables nothing is said of runs', async () => {
    const html = await (await answerTo({ name: 'm', path: '/import', form: { files: 'shelf.csv' } })).text()
    expect(html).toContain('Imported')
    expect(html).not.toContain('id="odd"')
  })
})
