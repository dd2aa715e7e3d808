import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { folderGuide, folderTable } from '../../src/input/folderGuide.ts'

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8')

test('the README lists every table and column of a shop folder, as the import reads them', () => {
  const [, listed] = /<!-- tables -->\n([\s\S]*?)\n<!-- end of tables -->/.exec(readme) ?? []
  expect(listed).toBe(folderTable())
})

test('every column says in words what it takes', () => {
  const columns = folderGuide().flatMap((t) => t.columns)
  expect(columns.length).toBeGreaterThan(80)
  for (const { name, allowed } of columns) expect(allowed.length, name).toBeGreaterThan(4)
})
