import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sendWhileKilled } from '../uses/outbox/killed.ts'

// npm run kill-sending [-- MAILS KILLS]: a sending that is killed (SIGKILL) at random points; about ten minutes.
const [mails = '1000', kills = '100'] = process.argv.slice(2)
const folder = await mkdtemp(join(tmpdir(), 'stillfits-killed-'))
const result = await sendWhileKilled(folder, {
  ...{ mails: Number(mails), kills: Number(kills), random: Math.random },
})
await rm(folder, { recursive: true, force: true })
process.stdout.write(`${JSON.stringify(result, undefined, 2)}\n`)
const isRight = result.takenOnce === Number(mails) && result.doubledByItself === 0
process.exitCode = isRight ? 0 : 1
