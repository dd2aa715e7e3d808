import { expect, test } from 'vitest'
import { answerTo } from '../serve.ts'
import { OPERATIONS, SHAPES } from './described.ts'

test('the reference shows every operation and shape of the description, and links lead somewhere', async () => {
  const text = await (await answerTo({ name: 'api', path: '/api' })).text()
  for (const { operationId, path } of OPERATIONS) {
    expect(text).toContain(`id="op-${operationId}"`)
    expect(text).toContain(path)
  }
  for (const name of Object.keys(SHAPES)) expect(text).toContain(`id="shape-${name}"`)
  const links = [...text.matchAll(/href="#([^"]+)"/g)].map((m) => m[1] ?? '')
  expect(links.length).toBeGreaterThan(50)
  expect(links.filter((id) => !text.includes(`id="${id}"`))).toEqual([])
  expect(text).not.toMatch(/https?:\/\/(?!127\.0\.0\.1)/)
})
