import { expect, test } from 'vitest'
import { checkInstallation } from '../../src/operate/doctor.ts'
import { readSettings } from '../../src/settings.ts'
import { openStore } from '../../src/store/open.ts'
import { temporaryServer } from '../store/temporaryStore.ts'

async function checked(url: string, token: string) {
  const settings = readSettings({
    ...{ STILLFITS_DATABASE: url, STILLFITS_DATABASE_TOKEN: token, STILLFITS_PORT: '0' },
  })
  if (!settings.ok) throw new Error('settings')
  const checks = await checkInstallation(settings.value, new Date().toISOString())
  return (name: string) =>
    checks.filter((c) => c.name === name).map(({ standing, says }) => `${standing}: ${says}`)
}

test('a database on a server is looked at through it, and who makes its backups is said', async () => {
  const server = await temporaryServer()
  await (await openStore(server.url, server.token)).close()
  const told = await checked(server.url, server.token)
  expect(told('database')).toEqual(['ok: On a server at an address that the settings name; it answers.'])
  expect(told('version')).toEqual([expect.stringMatching(/^ok: \d+, as this program has it/)])
  expect(told('writing')).toEqual(['ok: A write begins and ends.'])
  expect(told('clock')).toEqual([expect.stringMatching(/^ok: as the server/)])
  expect(told('accounts')).toEqual([expect.stringMatching(/^look: Nobody has one yet/)])
  expect(told('backup')).toEqual([
    expect.stringMatching(/^look: The server of the database has to make them/),
  ])
  expect(told('disk')).toEqual([])
})

test('a server that refuses, is not there, checks no references or is reached in the open', async () => {
  const server = await temporaryServer({ checksReferences: false })
  const refused = await checked(server.url, 'SECRET-TOKEN')
  expect(refused('database')).toEqual([expect.stringMatching(/^wrong: .*STILLFITS_DATABASE_TOKEN/)])
  expect(refused('database').join()).not.toContain('SECRET')
  expect((await checked(server.url, server.token))('database')).toContainEqual(
    expect.stringMatching(/^wrong: The server does not check references/),
  )
  // RFC 2606: a name that is never there.
  const away = await checked('http://db.invalid:8080', 'SECRET-TOKEN')
  expect(away('database')).toEqual([
    expect.stringMatching(/^wrong: On a server that does not answer/),
    expect.stringMatching(/^look: The address has no TLS/),
  ])
})
