import { spawnSync } from 'node:child_process'
import { randomInt } from 'node:crypto'

/**
 * Property tests with cases nobody has seen yet, and more of them; further words go to vitest (a path, `--project pure`).
 * STILLFITS_SEED draws the cases of an earlier run again, STILLFITS_RUNS says how many times as many.
 */
const seed = String(process.env.STILLFITS_SEED ?? randomInt(2 ** 31))
const runs = String(process.env.STILLFITS_RUNS ?? 3)
process.stdout.write(`STILLFITS_SEED=${seed} STILLFITS_RUNS=${runs}\n`)
const { status } = spawnSync(
  'npx',
  ['vitest', 'run', '--config', '.config/vitest.config.ts', ...process.argv.slice(2)],
  { stdio: 'inherit', env: { ...process.env, STILLFITS_SEED: seed, STILLFITS_RUNS: runs } },
)
process.exitCode = status ?? 1
