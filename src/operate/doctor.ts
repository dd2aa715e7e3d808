import { access, constants } from 'node:fs/promises'
import { createServer } from 'node:net'
import { resolve } from 'node:path'
import { EXIT } from '../problem.ts'
import type { Settings } from '../settings.ts'
import { DOCTOR_EN as W } from '../words/en/doctor.ts'
import { fill } from '../words/say.ts'
import { databaseChecks } from './doctorDatabase.ts'
import { fileChecks } from './doctorFiles.ts'

/** One thing that was looked at. */
export type Check = {
  readonly name: keyof typeof W.names
  readonly standing: 'ok' | 'look' | 'wrong'
  /** What was found, and what to do. */
  readonly says: string
}

/** Everything about this installation that can be looked at without changing it. */
export async function checkInstallation(settings: Settings, at: string): Promise<readonly Check[]> {
  return [
    { name: 'node', standing: 'ok', says: fill(W.node, { version: process.version }) },
    ...(await databaseChecks(settings, at)),
    ...(await fileChecks(settings)),
    ...ownerAddress(settings),
    ...(await mailFolder(settings)),
    await port(settings),
    reach(settings),
  ]
}

function ownerAddress({ ownerUrl }: Settings): Check[] {
  if (ownerUrl === undefined) return [{ name: 'owners', standing: 'look', says: W.owners.none }]
  const isPlain = !ownerUrl.startsWith('https:')
  const says = fill(isPlain ? W.owners.plain : W.owners.ok, { url: ownerUrl })
  return [{ name: 'owners', standing: isPlain ? 'look' : 'ok', says }]
}

async function mailFolder({ mail }: Settings): Promise<Check[]> {
  const { smtp, folder } = mail
  if (smtp !== undefined) {
    const { host, port: at, security } = smtp
    return [{ name: 'mail', standing: 'ok', says: fill(W.mail.smtp, { host, port: String(at), security }) }]
  }
  const path = resolve(folder)
  const can = await access(path, constants.W_OK).then(
    () => true,
    (error: NodeJS.ErrnoException) => error.code === 'ENOENT',
  )
  return can
    ? [{ name: 'mail', standing: 'look', says: fill(W.mail.files, { folder: path }) }]
    : [{ name: 'mail', standing: 'wrong', says: fill(W.mail.unwritable, { folder: path }) }]
}

const SHOP_PORT = 8080

async function port({ host, port: wanted = SHOP_PORT }: Settings): Promise<Check> {
  const code = await new Promise<string | undefined>((done) => {
    const server = createServer()
    server.once('error', (error: NodeJS.ErrnoException) => done(error.code ?? 'unknown'))
    server.listen(wanted, host, () => server.close(() => done(undefined)))
  })
  const values = { port: String(wanted), code: code ?? '' }
  if (code === undefined) return { name: 'port', standing: 'ok', says: fill(W.port.ok, values) }
  if (code === 'EADDRINUSE') return { name: 'port', standing: 'ok', says: fill(W.port.taken, values) }
  return { name: 'port', standing: 'wrong', says: fill(W.port.no, values) }
}

function reach({ host, proxies }: Settings): Check {
  const isHere = /^(localhost|127(\.\d{1,3}){3}|::1)$/.test(host)
  return isHere || proxies.length > 0
    ? { name: 'proxy', standing: 'ok', says: W.proxy.ok }
    : { name: 'proxy', standing: 'look', says: fill(W.proxy.open, { host }) }
}

/** `stillfits doctor`: exit code 0 where nothing is wrong, 1 where something is. */
export async function doctorCommand(settings: Settings, asJson: boolean): Promise<number> {
  const checks = await checkInstallation(settings, new Date().toISOString())
  const count = (standing: Check['standing']) => checks.filter((c) => c.standing === standing).length
  if (asJson) process.stdout.write(`${JSON.stringify({ checks }, null, 2)}\n`)
  else {
    for (const { name, standing, says } of checks)
      process.stdout.write(`${W.standing[standing].padEnd(13)} ${W.names[name]}: ${says}\n`)
    const sum = { wrong: String(count('wrong')), look: String(count('look')), ok: String(count('ok')) }
    process.stdout.write(`${fill(W.sum, sum)}\n`)
  }
  return count('wrong') > 0 ? EXIT.fault : EXIT.done
}
