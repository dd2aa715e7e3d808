import { type ChildProcess, spawn } from 'node:child_process'
import { connect } from 'node:net'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { temporaryFolder } from '../store/temporaryStore.ts'

const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))
const TOKEN = 'a-token-of-thirty-two-characters'
const SECRET = 'S'.repeat(43)

type Served = { readonly child: ChildProcess; readonly port: number; readonly out: () => string }

async function serve(env: Record<string, string> = {}): Promise<Served> {
  const folder = await temporaryFolder()
  const child = spawn(process.execPath, [BIN, 'serve'], {
    cwd: folder,
    env: {
      ...process.env,
      ...{
        STILLFITS_PORT: '0',
        STILLFITS_DATABASE: `file:${join(folder, 'shop.db')}`,
        STILLFITS_LOG: 'requests',
      },
      ...env,
    },
  })
  let out = ''
  const port = await new Promise<number>((done, fail) => {
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk) => {
        out += chunk
        const found = /http:\/\/127\.0\.0\.1:(\d+)/.exec(out)?.[1]
        if (found !== undefined) done(Number(found))
      })
    child.once('exit', () => fail(new Error(out)))
  })
  return { child, port, out: () => out }
}

const ended = (child: ChildProcess) =>
  new Promise<number | null>((done) => child.once('exit', (code) => done(code)))

const textOf = async (answer: Promise<Response>): Promise<[number, string]> => {
  const a = await answer
  return [a.status, await a.text()]
}

test('health, readiness, figures with the token alone; a line a request without a secret; a calm stop', async () => {
  const { child, port, out } = await serve({ STILLFITS_METRICS_TOKEN: TOKEN })
  const at = (path: string, init?: RequestInit) =>
    fetch(`http://127.0.0.1:${port}${path}`, { redirect: 'manual', ...init })
  expect(await textOf(at('/healthz'))).toEqual([200, 'runs\n'])
  expect(await textOf(at('/readyz'))).toEqual([200, 'ready\n'])
  for (const path of [`/o/${SECRET}`, `/u/${SECRET}`, `/y/${SECRET}?x=${SECRET}`, `/${SECRET}`])
    await at(path)
  expect((await at('/metrics')).status).not.toBe(200)
  expect((await at('/metrics', { headers: { authorization: `Bearer ${TOKEN}x` } })).status).not.toBe(200)
  const figures = await at('/metrics', { headers: { authorization: `Bearer ${TOKEN}` } })
  expect(figures.headers.get('content-type')).toMatch(/^application\/openmetrics-text; version=1\.0\.0/)
  const text = await figures.text()
  expect(text).not.toContain(SECRET)
  holdsFormat(text)
  expect(text).toMatch(/^stillfits_http_requests_total\{method="GET",route="\/o\/:token",status="\d+"\} 1$/m)

  // Half a form is in when the program is told to stop: it is answered, then the program ends with 0.
  const body = 'name=x&password=y'
  const socket = connect(port, '127.0.0.1')
  await new Promise((done) => socket.once('connect', done))
  socket.write(
    `POST /sign-in HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nOrigin: http://127.0.0.1:${port}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: ${body.length}\r\n\r\n${body.slice(0, 5)}`,
  )
  await new Promise((done) => setTimeout(done, 300))
  const exit = ended(child)
  child.kill('SIGTERM')
  await new Promise((done) => setTimeout(done, 300))
  await expect(at('/healthz')).rejects.toThrow()
  let answer = ''
  socket.on('data', (chunk) => {
    answer += chunk
  })
  socket.write(body.slice(5))
  expect(await exit).toBe(0)
  expect(answer).toMatch(/^HTTP\/1\.1 4\d\d /)
  const lines = out()
    .split('\n')
    .filter((line) => line.startsWith('{'))
    .map((line) => JSON.parse(line) as Record<string, unknown>)
  expect(lines.length).toBeGreaterThanOrEqual(6)
  for (const one of lines)
    expect(one).toMatchObject({ what: 'request', level: 'info', requestId: expect.any(String) })
  expect(lines.some((one) => one.path === '/o/:token')).toBe(true)
  expect(new Set(lines.map((one) => one.requestId)).size).toBe(lines.length)
  expect(out()).not.toContain(SECRET)
  expect(out()).not.toContain(TOKEN)
})

/**
 * OpenMetrics 1.0 (RFC draft and openmetrics.io specification, "Text format"): families are not mixed, TYPE and HELP stand before
 * samples, counters end in _total, buckets do not fall and end with +Inf = count, the last line is "# EOF".
 */
function holdsFormat(text: string): void {
  expect(text.endsWith('\n# EOF\n')).toBe(true)
  const families = new Map<string, string>()
  let family = ''
  let last = { key: '', value: 0 }
  for (const line of text.split('\n').slice(0, -2)) {
    const type = /^# TYPE ([a-z_:][a-z0-9_:]*) (counter|gauge|histogram)$/.exec(line)
    if (type !== null) {
      family = type[1] ?? ''
      expect(families.has(family), line).toBe(false)
      families.set(family, type[2] ?? '')
      continue
    }
    if (line.startsWith('# HELP ')) {
      expect(line.startsWith(`# HELP ${family} `), line).toBe(true)
      continue
    }
    const sample = /^([a-z_:][a-z0-9_:]*)(?:\{((?:[a-z_]+="(?:[^"\\\n]|\\["\\n])*",?)*)\})? (\S+)$/.exec(line)
    expect(sample, line).not.toBeNull()
    const [, name = '', labels = '', value = ''] = sample ?? []
    expect(Number.isNaN(Number(value)), line).toBe(false)
    const kind = families.get(family)
    const ends = kind === 'counter' ? ['_total'] : kind === 'histogram' ? ['_bucket', '_count', '_sum'] : ['']
    expect(
      ends.map((end) => `${family}${end}`),
      line,
    ).toContain(name)
    if (name.endsWith('_bucket')) {
      const key = labels.replace(/,?le="[^"]*"/, '')
      if (key === last.key) expect(Number(value)).toBeGreaterThanOrEqual(last.value)
      last = { key, value: Number(value) }
    }
    if (name.endsWith('_count') && kind === 'histogram') expect(Number(value)).toBe(last.value)
  }
  expect(families.size).toBeGreaterThan(6)
}
