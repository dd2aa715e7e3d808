import { spawnSync } from 'node:child_process'
import { randomInt } from 'node:crypto'

/** Property tests with cases nobody has seen yet; further words go to vitest (a path, `--project pure`). */
const seed = String(process.env.STILLFITS_SEED ?? randomInt(2 ** 31))
process.stdout.write(`STILLFITS_SEED=${seed}\n`)
const { status } = spawnSync(
  'npx',
  ['vitest', 'run', '--config', '.config/vitest.config.ts', ...process.argv.slice(2)],
  { stdio: 'inherit', env: { ...process.env, STILLFITS_SEED: seed } },
)
process.exitCode = status ?? 1
