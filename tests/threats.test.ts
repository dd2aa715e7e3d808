import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const read = (path: string) => fileURLToPath(new URL(`../${path}`, import.meta.url))

test('every threat in DEVELOPERS.md names tests that are there', () => {
  const text = readFileSync(read('DEVELOPERS.md'), 'utf8')
  const table = text.slice(text.indexOf('## Threats'), text.indexOf('**Not covered.**'))
  const rows = table.split('\n').filter((line) => line.startsWith('| ') && !/^\| (?:threat|---)/.test(line))
  expect(rows.length).toBeGreaterThan(20)
  for (const row of rows) {
    const named = [...(row.split('|').at(-2) ?? '').matchAll(/`([^`]+)`/g)].map((m) => m[1])
    expect(named.length, row).toBeGreaterThan(0)
    for (const name of named)
      expect(existsSync(read(`tests/${name}.test.ts`)), `${name} in ${row}`).toBe(true)
  }
})
