import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { TestProject } from 'vitest/node'

/** A folder for what many test files need alike (`tests/prepared.ts`); it lasts one run and is new at the next. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(tmpdir(), 'stillfits-prepared-'))
  process.env.STILLFITS_PREPARED = folder
  project.onTestsRerun(async () => {
    for (const name of await readdir(folder)) await rm(join(folder, name), { recursive: true, force: true })
  })
  return () => rm(folder, { recursive: true, force: true })
}
