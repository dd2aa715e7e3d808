import { spawnSync } from 'node:child_process'
import { tmpdir } from 'node:os'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))

test.each(['file:/tmp', 'file:/proc/x.db', 'file:x%', 'libsql://x y', 'http://127.0.0.1:1'])(
  'STILLFITS_DATABASE=%s: one message, exit code 2, no stack',
  (url) => {
    const run = spawnSync(process.execPath, [BIN, 'rank', 'Q-1'], {
      cwd: tmpdir(),
      env: { ...process.env, STILLFITS_DATABASE: url },
      encoding: 'utf8',
      // It ends what hangs: a busy computer takes 15 s to read the program.
      timeout: 100_000,
    })
    expect({ code: run.status, out: run.stdout }).toEqual({ code: 2, out: '' })
    expect(run.stderr).toMatch(/^STILLFITS_DATABASE: .*\.\n$/)
  },
)
