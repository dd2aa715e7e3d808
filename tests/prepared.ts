import { access, mkdir, mkdtemp, rename, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'

const isThere = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  )

/** Set by `.config/prepared.ts`; outside of vitest each process has a folder of its own. */
let folder = process.env.STILLFITS_PREPARED

/**
 * A folder with what many test files need alike and what is dear to make: the first that asks makes it, others wait, and
 * all get the same path, to copy from and never to write to. Where making it fails each tries, so each tells why.
 */
export async function prepared(name: string, make: (folder: string) => Promise<void>): Promise<string> {
  folder ??= await mkdtemp(join(tmpdir(), 'stillfits-prepared-'))
  const whole = join(folder, name)
  const part = `${whole}.part`
  const turn = `${whole}.turn`
  while (!(await isThere(whole))) {
    const isOurs = await mkdir(turn).then(
      () => true,
      () => false,
    )
    if (!isOurs) {
      await pause(20)
      continue
    }
    try {
      if (await isThere(whole)) break
      await rm(part, { recursive: true, force: true })
      await mkdir(part)
      await make(part)
      await rename(part, whole)
    } finally {
      await rm(turn, { recursive: true, force: true })
    }
  }
  return whole
}
