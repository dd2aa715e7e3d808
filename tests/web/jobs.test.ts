import { describe, expect, test } from 'vitest'
import { failed, ok } from '../../src/problem.ts'
import { createApp } from '../../src/web/app.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { jobViewAt, joiningAt, STAGES, type Stage } from './cannedJobs.ts'
import { inputs } from './cannedShop.ts'
import { cannedUses, HOSTILE, hostileInputs } from './cannedUses.ts'
import { answerTo, bodyOf, FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

const at = (stage: Stage): Partial<WebUses> => ({ job: async () => ok(jobViewAt(stage)) })

const htmlAt = async (stage: Stage): Promise<string> =>
  (await answerTo({ name: stage, path: '/jobs/J-0001', uses: at(stage) })).text()

/** Sends a form; gives what the pages handed over, the status and where the browser is sent. */
async function send(path: string, form: Record<string, string>, uses: Partial<WebUses> = {}) {
  const canned = cannedUses({ uses })
  const init = { method: 'POST', body: bodyOf(form), headers: FROM_OUR_PAGE }
  const answer = await createApp(canned.uses, { demo: false, ...asOwner }).request(`${ORIGIN}${path}`, init)
  return {
    ...{ calls: canned.calls, status: answer.status, to: answer.headers.get('location') },
    text: await answer.text(),
  }
}

describe('a yes', () => {
  test('hands over who fits it, the day in the shop’s zone, and the deposit in minor units', async () => {
    const form = {
      option: 'S-1',
      fittedBy: 'owner',
      bookedDay: '2026-06-20',
      bookedTime: '17:30',
      deposit: '20',
      seen: 'as-shown',
    }
    const { calls, status, to } = await send('/questions/Q-0007/yes', form)
    expect([status, to]).toEqual([303, '/jobs/J-0001'])
    // Chicago is at UTC-5 in June (IANA tz database): 17:30 there is 22:30 UTC.
    expect(calls).toEqual([
      [
        ...['agreeJob', 'Q-0007', 'S-1'],
        {
          ...{ fittedBy: 'owner', answerId: undefined, seen: 'as-shown', note: undefined },
          ...{ bookedFor: '2026-06-20T22:30:00.000Z', depositMinor: 2000 },
        },
      ],
    ])
  })

  test('to a kept answer is a yes to its price: its id goes along', async () => {
    const { calls } = await send('/questions/Q-0007/yes', { option: 'S-1', fittedBy: 'shop', answer: '1' })
    expect(calls).toMatchObject([['agreeJob', 'Q-0007', 'S-1', { answerId: '1', fittedBy: 'shop' }]])
  })

  test('carries what was shown, so that nothing is agreed at another price', async () => {
    const page = await answerTo({ name: 'yes', path: '/questions/Q-0007/yes?option=S-1' })
    expect(await page.text()).toContain('<input type="hidden" name="seen" value="as-shown"')
  })

  const joining = async (stage: Stage) => {
    const path = '/questions/Q-0007/yes?option=S-1'
    const html = await (await answerTo({ name: stage, path, uses: { toAgree: joiningAt(stage) } })).text()
    return { html, text: html.replace(/<[^>]+>/g, '').replace(/[\s\u00a0\u202f]+/g, ' ') }
  }

  test('that joins a visit on the bench says so and asks for no date', async () => {
    const { html, text } = await joining('bench')
    expect(text).toContain('It joins the visit J-0001, Cleaning and new paste, which is on the bench now')
    expect(text).toContain('Agreed so far: $40. With this it is $152 in all')
    expect(html).not.toContain('name="bookedDay"')
    expect(html).toContain('<input type="hidden" name="fittedBy" value="shop"')
    expect(text).toContain('On top of the $20 left before.')
  })

  test('that joins a booked visit keeps its date unless another is given', async () => {
    const { html, text } = await joining('booked')
    // Booked for 22:30 UTC, which is 17:30 in Chicago (IANA tz database: UTC-5 in June).
    expect(text).toMatch(/booked for Fri, June 12, 2026 at 5:30 PM/)
    expect(text).toMatch(/Left empty, it stays Fri, June 12, 2026 at 5:30 PM/)
    expect(html).toContain('name="bookedDay"')
  })

  test('a time without a day is asked back, and nothing is handed over', async () => {
    const { calls, status, text } = await send('/questions/Q-0007/yes', {
      ...{ option: 'S-1', fittedBy: 'shop', bookedTime: '17:30' },
    })
    expect([calls, status]).toEqual([[], 422])
    expect(text).toContain('Say which day as well.')
    expect(text).toContain('value="17:30"')
  })

  test('is offered on every option that can be agreed, and on none that hangs on a missing fact', async () => {
    const text = await (await answerTo({ name: 'question', path: '/questions/Q-0007' })).text()
    const offered = [...text.matchAll(/\/yes\?option=([^"&]+)/g)].map((m) => decodeURIComponent(m[1] ?? ''))
    expect(new Set(offered)).toContain('S-1')
    // S-5, the Shale 6G, has no figures: can't tell (see the canned shop).
    expect(offered.some((id) => id.split('+').includes('S-5'))).toBe(false)
  })

  test('a change that touches a warranty says so on the option', async () => {
    const warranties = [
      {
        ...{ machineTag: 'T-0007', partId: 'CRD-PEBBLE4', givenBy: 'shop' as const },
        ...{ from: '2025-09-02T17:00:00.000Z', until: '2027-09-02T17:00:00.000Z' },
      },
    ]
    const of = async (path: string) =>
      (await (await answerTo({ name: path, path, inputs: { ...inputs, warranties } })).text()).replaceAll(
        '\u00a0',
        ' ',
      )
    for (const path of ['/questions/Q-0007', '/questions/Q-0007/yes?option=S-1']) {
      expect(await of(path)).toContain(
        'Pebble 4G graphics card is under our warranty until September 2, 2027.',
      )
      expect(await of(path)).toContain('Nothing is noted that ends it, so taking it out does not.')
    }
    // A second stick touches no card.
    expect(await of('/questions/Q-0007/yes?option=S-2')).not.toContain('under our warranty')
  })
})

test('a yes that can be said no more is told before the form, with the way back to its question', async () => {
  const closed = [
    {
      code: 'conflict' as const,
      field: 'job',
      next: 'T-0007 has an open job already, J-0002. Finish it first.',
    },
  ]
  const { uses } = cannedUses({})
  const toAgree: WebUses['toAgree'] = async (...asked) => {
    const found = await uses.toAgree(...asked)
    return found.ok ? ok({ ...found.value, closed }) : found
  }
  const path = '/questions/Q-0007/yes?option=S-1'
  const page = await answerTo({ name: 'closed', path, uses: { toAgree } })
  const html = await page.text()
  expect(page.status).toBe(409)
  expect(html).toContain('has an open job already')
  expect(html).toContain('<a class="button" href="/questions/Q-0007">Back to the question</a>')
  expect(html).not.toContain('name="bookedDay"')
})

test('a note that is too long opens its fold, and is named as on the page', async () => {
  const { status, text } = await send('/jobs/J-0001/call-off', { callOffBecause: 'x'.repeat(5000) })
  expect(status).toBe(422)
  expect(text).toMatch(/<details open=""><summary>Call it off/)
  expect(text).toMatch(/href="#f-callOffBecause"[^>]*>Why, and what becomes of a deposit/)
})

describe('the forms of a job', () => {
  test.each([
    [
      'book',
      { bookedDay: '2026-06-20', deposit: '' },
      ['bookJob', 'J-0001', { bookedFor: '2026-06-20T15:00:00.000Z', depositMinor: undefined }],
      '',
    ],
    ['missed', {}, ['missedJob', 'J-0001', undefined], ''],
    ['start', {}, ['startJob', 'J-0001'], '#steps'],
    ['put-off', { because: 'no time' }, ['putOffJob', 'J-0001', 'no time'], ''],
    ['call-off', { callOffBecause: 'too dear' }, ['callOffJob', 'J-0001', 'too dear'], ''],
    ['remind', { remindDay: '2026-06-20' }, ['remindJob', 'J-0001', '2026-06-20T17:00:00.000Z'], ''],
    ['remind', { remindDay: '' }, ['remindJob', 'J-0001', undefined], ''],
    ['steps/2', { do: 'tick' }, ['tickStep', 'J-0001', 2, true], '#step-2'],
    ['steps/2', { do: 'untick' }, ['tickStep', 'J-0001', 2, false], '#step-2'],
    [
      'fitted',
      { firmware: '4.60' },
      ['finishFitting', 'J-0001', { firmware: '4.60', said: new Map() }],
      '#promise',
    ],
    ['settle', { settledMinor: '-12.50' }, ['settleJob', 'J-0001', -1250], '#settle'],
    [
      'miss',
      { missChecked: 'driver', missChoices: 'Keep it.\r\nGive it back.' },
      ['noteMiss', 'J-0001', { checked: 'driver', choices: 'Keep it.\nGive it back.' }],
      '#tell',
    ],
    [
      'miss',
      { missChecked: '', missChoices: '' },
      ['noteMiss', 'J-0001', { checked: undefined, choices: undefined }],
      '#tell',
    ],
    ['told', { do: 'told' }, ['markTold', 'J-0001', true], '#tell'],
    ['told', { do: 'not told' }, ['markTold', 'J-0001', false], '#tell'],
    ['finish', {}, ['finishJob', 'J-0001'], ''],
    [
      // Empty: the version of the title's newest run.
      'run',
      { title: 'lantern@1080-high', titleVersion: '', averageFps: '68.2' },
      [
        ...['recordRun', 'J-0001'],
        {
          ...{ titleId: 'lantern', settingId: '1080-high', titleVersion: '1.4', averageFps: 68.2 },
          ...{ low1Fps: undefined, note: undefined },
        },
      ],
      '#promise',
    ],
    [
      'run',
      { title: 'lantern@1080-high', titleVersion: '1.4', averageFps: '68,2', low1Fps: '' },
      [
        ...['recordRun', 'J-0001'],
        {
          ...{ titleId: 'lantern', settingId: '1080-high', titleVersion: '1.4', averageFps: 68.2 },
          ...{ low1Fps: undefined, note: undefined },
        },
      ],
      '#promise',
    ],
    [
      'report',
      { reportTitle: 'lantern@1080-high', reportAverageFps: '67' },
      [
        ...['reportAtHome', 'J-0001'],
        { titleId: 'lantern', settingId: '1080-high', averageFps: 67, low1Fps: undefined, note: undefined },
      ],
      '#reports',
    ],
    [
      'out/1',
      {
        do: 'on the shelf',
        'condition.1': 'used',
        'price.1': '45',
        'credit.1': '25',
        'warrantyMonths.1': '3',
      },
      [
        ...['decidePartOut', 'J-0001', '1'],
        {
          ...{ outcome: 'on the shelf', condition: 'used', priceMinor: 4500, creditMinor: 2500 },
          ...{ warrantyMonths: 3, warrantyEndsWith: undefined, note: undefined },
        },
      ],
      '#out',
    ],
    [
      'out/1',
      { do: 'given back' },
      ['decidePartOut', 'J-0001', '1', { outcome: 'given back', note: undefined }],
      '#out',
    ],
    ['out/1', { do: 'to test' }, ['decidePartOut', 'J-0001', '1', { outcome: 'to test' }], '#out'],
  ])('%s %j', async (path, form, call, anchor) => {
    const { calls, status, to } = await send(`/jobs/J-0001/${path}`, form as Record<string, string>)
    expect(calls).toEqual([call])
    expect([status, to]).toEqual([303, `/jobs/J-0001${anchor}`])
  })

  test.each([
    ['book', { bookedDay: '' }, 'bookedDay'],
    ['book', { bookedDay: '2026-02-30' }, 'bookedDay'],
    ['book', { bookedDay: '2026-06-20', deposit: '-5' }, 'deposit'],
    ['run', { title: 'hollow@1080-high', titleVersion: '', averageFps: '60' }, 'titleVersion'],
    ['run', { title: 'lantern@1080-high', titleVersion: '1', averageFps: '0' }, 'averageFps'],
    ['settle', { settledMinor: '' }, 'settledMinor'],
    ['out/1', { do: 'on the shelf', 'price.1': '' }, 'price-1'],
  ])('%s %j is asked back at its field, and nothing is handed over', async (path, form, field) => {
    const { calls, status, text } = await send(
      `/jobs/J-0001/${path}`,
      form as Record<string, string>,
      at('in'),
    )
    expect([calls, status]).toEqual([[], 422])
    expect(text).toContain(`href="#f-${field}"`)
    if (!['book', 'settle'].includes(path)) expect(text).toContain(`id="f-${field}-wrong"`)
  })

  test('what the uses refuse is shown on the page with its status', async () => {
    const refuse = failed({
      code: 'conflict',
      field: 'shelf',
      got: 'Flint 8G',
      next: 'is put aside for J-0002.',
    })
    const { status, text } = await send('/jobs/J-0001/start', {}, { startJob: async () => refuse })
    expect(status).toBe(409)
    expect(text).toContain('is put aside for J-0002.')
  })
})

describe('a job’s page', () => {
  test('offers the steps that can be taken there and no other', async () => {
    const buttons = async (stage: Stage) =>
      [...(await htmlAt(stage)).matchAll(/action="\/jobs\/J-0001\/([a-z-]+)/g)].map((m) => m[1])
    expect(new Set(await buttons('agreed'))).toEqual(
      new Set(['outbox', 'book', 'start', 'call-off', 'remind']),
    )
    expect(new Set(await buttons('booked'))).toEqual(
      new Set(['outbox', 'start', 'missed', 'book', 'call-off', 'remind']),
    )
    expect(new Set(await buttons('bench'))).toEqual(
      new Set(['steps', 'fitted', 'put-off', 'call-off', 'remind']),
    )
    expect(new Set(await buttons('in'))).toEqual(
      new Set(['run', 'report', 'out', 'settle', 'outbox', 'told', 'finish', 'remind']),
    )
    expect(new Set(await buttons('called off'))).toEqual(new Set())
  })

  test('has ticks with names, and each id once', async () => {
    for (const stage of STAGES) {
      const html = await htmlAt(stage)
      const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map((m) => m[1])
      expect(new Set(ids).size, stage).toBe(ids.length)
    }
    expect(await htmlAt('bench')).toContain('Take the tick back: Open the machine')
    expect(await htmlAt('bench')).toContain('Tick: Fit: Flint 8G')
  })

  test('prints markup that people brought in as text, at every stage', async () => {
    for (const stage of STAGES) {
      const uses = { job: async () => ok(jobViewAt(stage, hostileInputs)) }
      const text = await (
        await answerTo({ name: stage, path: '/jobs/J-0001', uses, inputs: hostileInputs })
      ).text()
      expect(text, stage).not.toContain('<img')
      expect(text, stage).toContain('&lt;img src=x')
    }
    expect(HOSTILE).toContain('<img')
  })
})

test('the shelf says what is put aside, with the way to the job', async () => {
  const text = await (await answerTo({ name: 'shelf', path: '/shelf' })).text()
  expect(text.replaceAll('\u00a0', ' ')).toContain('1 of 2 put aside for <a href="/jobs/J-0001">J-0001</a>')
})

describe('a machine that was sold on', () => {
  test('hands over the new owner, or none', async () => {
    const path = '/machines/T-0007/owner'
    const named = await send(path, { ownerName: 'Petra Quill', ownerEmail: 'petra@example.net' })
    expect(named.calls).toEqual([
      ['changeOwner', 'T-0007', { ownerName: 'Petra Quill', ownerEmail: 'petra@example.net' }],
    ])
    expect([named.status, named.to]).toEqual([303, '/machines/T-0007'])
    expect((await send(path, {})).calls).toEqual([
      ['changeOwner', 'T-0007', { ownerName: undefined, ownerEmail: undefined }],
    ])
  })

  test('its page tells former owners, warranties that run and what owners said', async () => {
    const text = (await (await answerTo({ name: 'machine', path: '/machines/T-0007' })).text()).replaceAll(
      '\u00a0',
      ' ',
    )
    for (const said of [
      '>Imre Vale</a> until February 2, 2026',
      'Pebble 4G: our warranty until September 2, 2026.',
      'Kept apart: no answer counts with it.',
      'href="/machines/T-0007/owner"',
      'href="/jobs/J-0001"',
    ])
      expect(text).toContain(said)
  })
})
