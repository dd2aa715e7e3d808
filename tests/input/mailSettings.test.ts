import { generateKeyPairSync } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { readMailSettings } from '../../src/mailSettings.ts'

const HOST = { STILLFITS_SMTP_HOST: 'mail.example.com' }
const FILES = { folder: 'data/mails', perMinute: 30 }
const SECRET = 'a-secret-word'
const { privateKey } = generateKeyPairSync('ec', {
  namedCurve: 'prime256v1',
  publicKeyEncoding: { type: 'spki', format: 'pem' },
  privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
})

test('nothing set: mails are files and nothing leaves', () => {
  expect(readMailSettings({})).toEqual({ ok: true, value: FILES })
  expect(readMailSettings({ STILLFITS_SMTP_HOST: ' ', STILLFITS_SMTP_PORT: '25' })).toEqual({
    ...{ ok: true, value: FILES },
  })
})

// RFC 8314, 3.3 and RFC 6409, 3.1.
test.each([
  [{}, { port: 465, security: 'tls', connections: 2 }],
  [{ STILLFITS_SMTP_SECURITY: 'starttls' }, { port: 587, security: 'starttls', connections: 2 }],
  [{ STILLFITS_SMTP_PORT: '2525' }, { port: 2525, security: 'tls', connections: 2 }],
])('%o', (env, smtp) => {
  const read = readMailSettings({ ...HOST, ...env })
  expect(read).toEqual({ ok: true, value: { ...FILES, smtp: { host: 'mail.example.com', ...smtp } } })
})

test('sign-in and signature; the key may have its line ends written out', () => {
  const read = readMailSettings({
    ...{ ...HOST, STILLFITS_SMTP_USER: 'bench', STILLFITS_SMTP_PASSWORD: SECRET },
    ...{ STILLFITS_DKIM_DOMAIN: 'example.com', STILLFITS_DKIM_SELECTOR: 'm1' },
    STILLFITS_DKIM_KEY: privateKey.replaceAll('\n', '\\n'),
  })
  const smtp = read.ok ? read.value.smtp : undefined
  expect(smtp).toMatchObject({ user: 'bench', password: SECRET, dkim: { domain: 'example.com' } })
  expect(smtp?.dkim?.privateKey.trim()).toBe(privateKey.trim())
})

describe('what is wrong names its variable, and no secret', () => {
  test.each([
    [{ ...HOST, STILLFITS_SMTP_SECURITY: 'none' }, 'STILLFITS_SMTP_SECURITY'],
    [{ ...HOST, STILLFITS_SMTP_SECURITY: 'ssl' }, 'STILLFITS_SMTP_SECURITY'],
    [{ ...HOST, STILLFITS_SMTP_PORT: '0' }, 'STILLFITS_SMTP_PORT'],
    [{ ...HOST, STILLFITS_SMTP_CONNECTIONS: '21' }, 'STILLFITS_SMTP_CONNECTIONS'],
    [{ STILLFITS_MAILS_PER_MINUTE: '0' }, 'STILLFITS_MAILS_PER_MINUTE'],
    [{ STILLFITS_SMTP_HOST: 'https://mail' }, 'STILLFITS_SMTP_HOST'],
    [{ ...HOST, STILLFITS_SMTP_USER: SECRET }, 'STILLFITS_SMTP_PASSWORD'],
    [{ ...HOST, STILLFITS_SMTP_PASSWORD: SECRET }, 'STILLFITS_SMTP_USER'],
    [{ STILLFITS_SMTP_USER: SECRET, STILLFITS_SMTP_PASSWORD: SECRET }, 'STILLFITS_SMTP_HOST'],
    [{ ...HOST, STILLFITS_DKIM_DOMAIN: 'example.com' }, 'STILLFITS_DKIM_SELECTOR'],
    [{ ...HOST, STILLFITS_DKIM_KEY: SECRET }, 'STILLFITS_DKIM_KEY'],
  ])('%#', (env, field) => {
    const read = readMailSettings(env)
    expect(read.ok ? [] : read.problems.map((problem) => problem.field)).toContain(field)
    expect(JSON.stringify(read)).not.toContain(SECRET)
  })
  test('none is for a server on this computer', () => {
    for (const host of ['127.0.0.1', 'localhost', '::1'])
      expect(readMailSettings({ STILLFITS_SMTP_HOST: host, STILLFITS_SMTP_SECURITY: 'none' }).ok).toBe(true)
  })
})
