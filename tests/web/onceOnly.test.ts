import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { askOwner } from '../../src/uses/askOwner.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import { finishFitting } from '../../src/uses/jobs/finishFitting.ts'
import { startJob } from '../../src/uses/jobs/moveJob.ts'
import { makeOwnerLink } from '../../src/uses/ownerLinks.ts'
import { usesOf } from '../../src/usesOf.ts'
import { createApp } from '../../src/web/app.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { dump } from '../store/temporaryStore.ts'
import { AT, copyOf, optionWith, shopFile, unwrapped } from '../uses/jobs/jobShop.ts'
import { cannedUses } from './cannedUses.ts'
import { FROM_OUR_PAGE, ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-once-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

type Fields = Readonly<Record<string, string | Blob>>

const bodyOf = (fields: Fields): FormData => {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.append(name, value)
  return form
}

async function shop() {
  const { store, close } = await copyOf(file)
  const app = createApp(usesOf(store), { demo: false, ...asOwner })
  const send = async (path: string, fields: Fields) => {
    const answer = await app.request(`${ORIGIN}${path}`, {
      ...{ method: 'POST', body: bodyOf(fields), headers: FROM_OUR_PAGE },
    })
    return { status: answer.status, to: answer.headers.get('location') }
  }
  /** The key that stands in the form which is sent there; a page may ask to wait for the gain model first. */
  const keyOf = async (page: string, action: string): Promise<string> => {
    for (let tries = 0; tries < 120; tries++) {
      const answer = await app.request(`${ORIGIN}${page}`)
      const text = await answer.text()
      const form = text.split('<form ').find((part) => part.includes(`action="${action}"`)) ?? ''
      const key = /name="once" value="([^"]+)"/.exec(form)?.[1]
      if (key !== undefined) return key
      if (!answer.headers.has('refresh')) break
    }
    throw new Error(`no key in the form of ${page} for ${action}`)
  }
  return { store, close, send, keyOf }
}

const QUESTION = {
  ...{ do: 'save', machineTag: 'M-0207', words: 'It got loud.', asks: 'something is wrong' },
  complaint: 'loud',
}
const PNG = new File([Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex')], 'x.png')

/** Every form that makes something new: where it stands, where it is sent, and what is typed. */
const FORMS: readonly {
  readonly name: string
  readonly make: (
    s: Awaited<ReturnType<typeof shop>>,
  ) => Promise<{ page: string; action: string; fields: Fields }>
}[] = [
  {
    name: 'a question',
    make: async () => ({ page: '/questions/new', action: '/questions/new', fields: QUESTION }),
  },
  {
    name: 'a message',
    make: async () => ({ page: '/questions/Q-0301', action: '/questions/Q-0301/message', fields: {} }),
  },
  {
    name: 'a yes',
    make: async ({ store }) => {
      const { id } = await optionWith(store, 'Q-0301', ['S-601'])
      const page = `/questions/Q-0301/yes?option=${encodeURIComponent(id)}`
      return { page, action: '/questions/Q-0301/yes', fields: { option: id, fittedBy: 'shop' } }
    },
  },
  {
    name: 'a booking',
    make: async ({ store }) => {
      const { id } = await optionWith(store, 'Q-0301', ['S-601'])
      unwrapped(await agreeJob(store, 'Q-0301', id, { fittedBy: 'shop' }, AT))
      return { page: '/jobs/J-0001', action: '/jobs/J-0001/book', fields: { bookedDay: '2032-01-08' } }
    },
  },
  {
    name: 'a report, by the shop',
    make: async ({ store }) => {
      await fittedAtHome(store)
      const fields = { reportTitle: 'saffron@1080-high', reportAverageFps: '71' }
      return { page: '/jobs/J-0001', action: '/jobs/J-0001/report', fields }
    },
  },
  {
    name: 'a report, by the owner',
    make: async ({ store }) => {
      await fittedAtHome(store)
      const page = await ownerPage(store)
      const fields = { job: 'J-0001', reportTitle: 'saffron@1080-high', reportFps: '71' }
      return { page, action: `${page}/fps`, fields }
    },
  },
  {
    name: 'a question, by the owner',
    make: async ({ store }) => {
      const page = await ownerPage(store)
      const { machineTag: _, ...fields } = QUESTION
      return { page, action: `${page}/questions`, fields: { ...fields, do: 'send' } }
    },
  },
  {
    name: 'a photo, by the owner',
    make: async ({ store }) => {
      const asked = await askOwner(store, { machineTag: 'M-0207', limitKey: 'coolingClean' }, AT)
      const page = await ownerPage(store)
      const fields = { request: unwrapped(asked).requestId, photo: PNG }
      return { page, action: `${page}/photos`, fields }
    },
  },
  {
    name: 'a machine',
    make: async () => ({
      ...{
        page: '/machines/new',
        action: '/machines/new',
        fields: { tag: 'M-0900', ownerName: 'Petra Quill' },
      },
    }),
  },
  {
    name: 'a change of owner',
    make: async () => ({
      ...{ page: '/machines/M-0207/owner', action: '/machines/M-0207/owner' },
      fields: { ownerName: 'Petra Quill' },
    }),
  },
]

type Store = Awaited<ReturnType<typeof shop>>['store']

const ownerPage = async (store: Store) =>
  `/o/${unwrapped(await makeOwnerLink(store, 'M-0207', new Date().toISOString())).token}`

async function fittedAtHome(store: Store): Promise<void> {
  const { id } = await optionWith(store, 'Q-0301', ['S-601'])
  const { jobId } = unwrapped(await agreeJob(store, 'Q-0301', id, { fittedBy: 'owner' }, AT))
  unwrapped(await startJob(store, jobId, AT))
  unwrapped(await finishFitting(store, jobId, {}, AT))
}

describe.each(FORMS)('$name', ({ make }) => {
  test('sent twice at once, or again later, is done once and leads to the same page', async () => {
    const s = await shop()
    const { page, action, fields } = await make(s)
    const sent = { ...fields, once: await s.keyOf(page, action) }
    const [first, second] = await Promise.all([s.send(action, sent), s.send(action, sent)])
    expect(first.status).toBe(303)
    expect(second).toEqual(first)
    const after = await dump(s.store)
    expect(await s.send(action, sent)).toEqual(first)
    expect(await dump(s.store)).toEqual(after)
    await s.close()
  })
})

describe('a form', () => {
  test('that was sent before a restart is not done again, and one that was only opened is done once', async () => {
    const s = await shop()
    const once = await s.keyOf('/questions/new', '/questions/new')
    const sent = await s.send('/questions/new', { ...QUESTION, once })
    const opened = await s.keyOf('/questions/new', '/questions/new')
    const page = await ownerPage(s.store)
    const { machineTag: _, ...fields } = QUESTION
    const owners = { ...fields, do: 'send', once: await s.keyOf(page, `${page}/questions`) }
    const asked = await s.send(`${page}/questions`, owners)
    const app = createApp(usesOf(s.store), { demo: false, ...asOwner })
    const again = async (path: string, body: Fields) => {
      const answer = await app.request(`${ORIGIN}${path}`, {
        ...{ method: 'POST', body: bodyOf(body), headers: FROM_OUR_PAGE },
      })
      return { status: answer.status, to: answer.headers.get('location') }
    }
    const before = await dump(s.store)
    expect(await again('/questions/new', { ...QUESTION, once })).toEqual(sent)
    expect(await again(`${page}/questions`, owners)).toEqual(asked)
    expect(await dump(s.store)).toEqual(before)
    // The secret piece of the owner's address is nowhere in what is kept.
    expect(JSON.stringify(before)).not.toContain(page.slice('/o/'.length))
    const first = await again('/questions/new', { ...QUESTION, once: opened })
    expect(first.to).not.toBe(sent.to)
    expect(await again('/questions/new', { ...QUESTION, once: opened })).toEqual(first)
    await s.close()
  })

  test('that is drawn anew, or was changed after going back, is another one', async () => {
    const s = await shop()
    const once = await s.keyOf('/questions/new', '/questions/new')
    const first = await s.send('/questions/new', { ...QUESTION, once })
    const changed = await s.send('/questions/new', { ...QUESTION, once, words: 'It got hot too.' })
    const anew = await s.send('/questions/new', {
      ...{ ...QUESTION, once: await s.keyOf('/questions/new', '/questions/new') },
    })
    expect(new Set([first.to, changed.to, anew.to]).size).toBe(3)
    await s.close()
  })

  test('in which something was wrong can be sent again with the same key', async () => {
    const s = await shop()
    const once = await s.keyOf('/questions/new', '/questions/new')
    expect((await s.send('/questions/new', { ...QUESTION, once, machineTag: '' })).status).toBe(422)
    expect((await s.send('/questions/new', { ...QUESTION, once })).status).toBe(303)
    await s.close()
  })

  test('that met a fault is done when it is sent again', async () => {
    let calls = 0
    const takeQuestion: WebUses['takeQuestion'] = async () => {
      calls += 1
      if (calls === 1) throw new Error('the first one breaks')
      return { ok: true, value: { id: 'Q-0008' } }
    }
    const app = createApp(cannedUses({ uses: { takeQuestion } }).uses, { demo: false, ...asOwner })
    const send = () =>
      app.request(`${ORIGIN}/questions/new`, {
        ...{ method: 'POST', body: bodyOf({ ...QUESTION, once: 'k' }), headers: FROM_OUR_PAGE },
      })
    expect([(await send()).status, (await send()).status, (await send()).status]).toEqual([500, 303, 303])
    expect(calls).toBe(2)
  })
})
