import { expect, test } from 'vitest'
import { createApp } from '../../src/web/app.ts'
import { LABEL, TOKEN } from './cannedSheet.ts'
import { cannedUses } from './cannedUses.ts'
import { ORIGIN } from './serve.ts'
import { asOwner } from './signedIn.ts'

const get = async (path: string): Promise<string> => {
  const app = createApp(cannedUses().uses, { demo: false, ...asOwner })
  return (await app.request(`${ORIGIN}${path}`)).text()
}
/** Where the drawing and its table stand. */
const slotsIn = (html: string) => /<section class="card sheet-slots">.*?<\/section>/s.exec(html)?.[0]

test('the limits sheet draws the machine’s slots, with a table whose unknown limits are on the machine’s page', async () => {
  const slots = slotsIn(await get('/machines/T-0007/sheet')) ?? ''
  expect(slots).toContain('<svg')
  // One module of 8 GB in four slots, as the sheet says in words: 3 of 4 free.
  expect(slots).toContain('1 taken, 3 free')
  expect(slots).toContain('href="/machines/T-0007#limit-coolerRoomMm"')
})
test('behind a case label the same is drawn, with how to find out and no way into the shop', async () => {
  const slots = slotsIn(await get(`/l/${LABEL}`)) ?? ''
  expect(slots).toContain('1 taken, 3 free')
  expect(slots).toContain('Measure the gap')
  expect(slots).not.toContain('href=')
})
test('a sheet as it was handed out has no drawing: what it was drawn from was not kept', async () => {
  expect(slotsIn(await get('/machines/T-0007/sheet/handed/1'))).toBeUndefined()
  expect(slotsIn(await get(`/o/${TOKEN}/sheet`))).toBeUndefined()
})
