import { type ChildProcess, spawn } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { request } from 'node:http'
import { fileURLToPath } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { gameLike } from '../core/frames/feed.ts'
import { CHROMIUM, hasChromium, launch } from '../web/browser.ts'
import { eveningLog } from '../web/cannedFrameLogs.ts'

/**
 * Frame-time logs on the demo, in a browser and over a bare connection. Without a browser these are skipped and said
 * to be; under CI they must run. Machines and titles: fixtures/README.md.
 */
const run = hasChromium || process.env.CI === 'true'
if (!run) process.stderr.write(`skipped: no Chromium at ${CHROMIUM}; set CHROMIUM to one\n`)

const BIN = fileURLToPath(new URL('../../src/bin.mjs', import.meta.url))

async function startDemo(): Promise<{ demo: ChildProcess; address: string }> {
  const demo = spawn(process.execPath, [BIN, 'demo'], { env: { ...process.env, STILLFITS_PORT: '0' } })
  const address = await new Promise<string>((resolve, reject) => {
    demo.stdout.on('data', (chunk) => {
      const found = /http:\/\/[\d.]+:\d+/.exec(String(chunk))
      if (found) resolve(found[0])
    })
    demo.once('exit', (code) => reject(new Error(`the demo ended with ${code}`)))
  })
  return { demo, address }
}

const words = async (page: Page): Promise<string> =>
  ((await page.locator('main').textContent()) ?? '').replaceAll(/\s+/g, ' ')

const csv = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) })

/**
 * A loading screen without a cap, then the game: 3100 frames of 0.4 ms, 6000 of 16 ms, ten of 48 ms. Nobody plays at
 * 2,500 FPS, so the beginning looks like seconds. By hand, in ms: 9110 frames in 1.24 + 96 + 0.48 = 97.72 s; 99 of 100
 * frames take 16 ms; the slowest 92 take (10 x 48 + 82 x 16) / 92 = 19.478 ms on average.
 */
const LOADED = [
  ...Array.from({ length: 3100 }, () => 0.4),
  ...Array.from({ length: 6000 }, () => 16),
  ...Array.from({ length: 10 }, () => 48),
].join('\n')
const AVERAGE_FPS = 9110 / 97.72
const LOW_FPS = 1000 / 16
const LOW_MEAN_FPS = 1000 / 19.478

describe.runIf(run)('a frame-time log', () => {
  let demo: ChildProcess
  let address: string
  let browser: Browser
  beforeAll(async () => {
    const [started, opened] = await Promise.all([startDemo(), launch()])
    demo = started.demo
    address = started.address
    browser = opened
  })
  afterAll(async () => {
    await browser?.close()
    demo?.kill('SIGTERM')
  })
  const open = async (path: string, javaScriptEnabled: boolean) => {
    const context = await browser.newContext({
      ...{ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, javaScriptEnabled },
    })
    const page = await context.newPage()
    const complaints: string[] = []
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
    page.on('pageerror', (error) => complaints.push(error.message))
    await page.goto(`${address}${path}`)
    return { page, complaints }
  }

  test('on a phone without a script: a wrong unit guess is doubted, corrected, saved, and opens again', async () => {
    const { page, complaints } = await open('/runs', false)
    await page.getByRole('link', { name: 'Frame-time logs' }).tap()
    await page.getByLabel('CSV file, one frame a row').setInputFiles(csv('loaded.csv', LOADED))
    await page.getByRole('button', { name: 'Read the log' }).tap()
    await page.waitForURL(/\/runs\/log\/\d+$/)

    // The guess, with its doubt, before anything is saved.
    expect(await words(page)).toContain('Column 1: how long each frame took, in s. This is a guess.')
    expect(await page.getByRole('note').last().textContent()).toContain('Most steps are longer than 10 s')
    await page.getByLabel('Unit', { exact: true }).selectOption('ms')
    await page.getByRole('button', { name: 'Read it so' }).tap()
    await page.waitForURL(/unit=ms/)
    expect(await words(page)).toContain('Column 1: how long each frame took, in ms.')
    const figure = async (name: RegExp) =>
      Number((await page.getByRole('row', { name }).locator('td').textContent())?.replace(/[^\d.]/g, ''))
    expect(await figure(/^Average/)).toBeCloseTo(AVERAGE_FPS, 1)
    expect(await figure(/99 of 100 frames beat it/)).toBeCloseTo(LOW_FPS, 1)
    expect(await figure(/mean of the slowest 1 in 100 frames/)).toBeCloseTo(LOW_MEAN_FPS, 1)
    expect(await page.locator('svg.frames').count()).toBe(2)
    const overflow = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
    expect(await overflow()).toBeLessThanOrEqual(0)

    // Of which machine, title and setting.
    await page.getByRole('link', { name: 'Save this as a run' }).tap()
    await page.waitForURL(/\/save\?/)
    await page.getByText('Another machine or day').tap()
    await page.getByLabel('Machine', { exact: true }).selectOption('M-0211')
    await page.getByRole('button', { name: 'Take this one' }).tap()
    await page.waitForURL(/machine=M-0211/)
    expect(await words(page)).toContain('16 GB DDR4 at 2666 MT/s, 2 channels, link gen 3 ×16')
    expect(await words(page)).toContain('how long each frame took, in ms.')
    await page.getByLabel('Title', { exact: true }).selectOption({ label: 'Saffron Relay' })
    await page.getByLabel('Setting', { exact: true }).selectOption({ index: 1 })
    await page.getByLabel('Version', { exact: true }).selectOption('')
    await page.getByRole('button', { name: 'Save the run' }).tap()
    expect(await page.getByRole('alert').textContent()).toContain('Say which version ran')
    await page.getByLabel('Or a new version').fill('1.4.0')
    await page.getByLabel('Scene').fill('main menu')
    expect(await overflow()).toBeLessThanOrEqual(0)
    await page.getByRole('button', { name: 'Save the run' }).tap()
    expect(await page.getByRole('status').textContent()).toContain('One run is kept')

    // From the run back to its log, as it was read; the file comes back as it went in.
    await page.getByRole('status').getByRole('link').first().tap()
    await page.waitForURL(/\/runs\/R-\d+$/)
    expect(await words(page)).toContain('main menu')
    await page.getByRole('link', { name: 'Open its frame-time log' }).tap()
    await page.waitForURL(/\/runs\/log\/\d+$/)
    expect(await words(page)).toContain('Column 1: how long each frame took, in ms.')
    expect(await words(page)).toContain('The figures’ shape says another way')
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'The file as it came' }).tap(),
    ])
    expect(download.suggestedFilename()).toBe('loaded.csv')
    expect(await readFile(await download.path(), 'utf8')).toBe(LOADED)
    // The form with a field missing was answered with 422, which the console says too.
    expect(complaints).toEqual([expect.stringContaining('422')])
  })

  test('with a script: three captures at once are three repeats', async () => {
    const { page, complaints } = await open('/runs/log', true)
    const captures = [1, 2, 3].map((n) => csv(`lap ${n}.csv`, eveningLog(20_000, n)))
    await page.getByLabel('CSV file, one frame a row').setInputFiles(captures)
    await page.getByRole('button', { name: 'Read the log' }).tap()
    await page.waitForURL(/\/runs\/log\/\d+,\d+,\d+$/)
    expect(await words(page)).toMatch(
      /The averages of 3 captures lie between [\d.]+ and [\d.]+\u00a0FPS|averages of 3 captures/,
    )
    expect(await page.getByRole('table').count()).toBe(3)
    await page.getByRole('link', { name: 'Save these as 3 runs' }).tap()
    await page.getByLabel('Or a new version').fill('2.0')
    await page.getByLabel('Setting', { exact: true }).selectOption({ index: 1 })
    await page.getByRole('button', { name: 'Save 3 runs' }).tap()
    expect(await page.getByRole('status').textContent()).toContain('3 runs are kept')
    expect(complaints).toEqual([])
  })

  test('what is no log is refused where it was chosen, with a script and without, and is not kept', async () => {
    for (const javaScriptEnabled of [true, false]) {
      const { page } = await open('/runs/log', javaScriptEnabled)
      const kept = await page.getByRole('heading', { name: 'Kept logs' }).count()
      const listed = await page.locator('.ruled li').count()
      await page
        .getByLabel('CSV file, one frame a row')
        .setInputFiles(csv('letter.csv', 'Dear shop,\nit stutters.\n'))
      await page.getByRole('button', { name: 'Read the log' }).tap()
      await page.getByRole('alert').waitFor()
      expect(await page.getByRole('alert').textContent()).toContain('No column of figures was found in it')
      expect(await page.getByRole('heading', { name: 'Kept logs' }).count()).toBe(kept)
      expect(await page.locator('.ruled li').count()).toBe(listed)
    }
  })

  const post = (
    headers: Record<string, string>,
    write: (request: import('node:http').ClientRequest) => void,
  ) =>
    new Promise<{ status: number; text: string }>((resolve, reject) => {
      const asked = request(
        `${address}/runs/log`,
        { method: 'POST', headers: { origin: address, ...headers } },
        (answer) => {
          let text = ''
          answer.on('data', (chunk) => {
            text += chunk
          })
          answer.on('end', () => resolve({ status: answer.statusCode ?? 0, text }))
        },
      )
      asked.on('error', reject)
      write(asked)
    })
  const FORM = { 'content-type': 'multipart/form-data; boundary=cut' }
  const part = (name: string, file: string) =>
    `--cut\r\nContent-Disposition: form-data; name="${name}"; filename="${file}"\r\nContent-Type: text/csv\r\n\r\n`
  const logsListed = async () => {
    const text = await (await fetch(`${address}/runs/log`)).text()
    return text.match(/class="row-link"/g)?.length ?? 0
  }

  test('no form, an empty form, a form that says it is too large: told calmly, nothing kept', async () => {
    const before = await logsListed()
    const plain = await post({ 'content-type': 'text/plain' }, (asked) => asked.end('16.7'))
    expect(plain.status).toBe(400)
    const none = await post(FORM, (asked) => asked.end(`${part('logs', '')}\r\n--cut--\r\n`))
    expect(none.status).toBe(422)
    expect(none.text).toContain('Choose a frame-time log')
    const other = await post(FORM, (asked) => asked.end(`${part('files', 'a.csv')}1\n2\n\r\n--cut--\r\n`))
    expect(other.status).toBe(422)
    const broken = await post(FORM, (asked) => asked.end(`${part('logs', 'a.csv')}16.7\n16.8\n`))
    expect(broken.status).toBe(400)
    const large = await post({ ...FORM, 'content-length': String(2 ** 32) }, (asked) =>
      asked.write('--cut\r\n'),
    )
    expect(large.status).toBe(413)
    for (const { text } of [plain, none, other, broken, large]) expect(text).not.toMatch(/\n\s+at |Error:/)
    expect(await logsListed()).toBe(before)
  })

  test('a connection that breaks off leaves nothing, and the next upload is taken', async () => {
    const before = await logsListed()
    await expect(
      post(FORM, (asked) => {
        asked.write(`${part('logs', 'half.csv')}${gameLike(200_000).join('\n')}`)
        setTimeout(() => asked.destroy(), 200)
      }),
    ).rejects.toThrow()
    const whole = await post(FORM, (asked) =>
      asked.end(`${part('logs', 'whole.csv')}${gameLike(500).join('\n')}\r\n--cut--\r\n`),
    )
    expect(whole.status).toBe(303)
    expect(await logsListed()).toBe(before + 1)
  })

  test('a file’s name is only a name: no path, no markup, no header line', async () => {
    const name = `../../etc/<script>alert(1)</script>%22;x=\u202ey.csv`
    const sent = await post(FORM, (asked) =>
      asked.end(`${part('logs', name)}${gameLike(501).join('\n')}\r\n--cut--\r\n`),
    )
    expect(sent.status).toBe(303)
    const list = await (await fetch(`${address}/runs/log`)).text()
    expect(list).not.toContain('<script>alert')
    expect(list).not.toContain('etc/')
    const [, id] = /href="\/runs\/log\/(\d+)"/.exec(list) ?? []
    const file = await fetch(`${address}/runs/log/${id}/original`)
    expect(file.headers.get('content-disposition')).toMatch(
      /^attachment; filename="[\w.% ;=()<>-]*"; filename\*=UTF-8''[\w.%-]+$/,
    )
    expect(file.headers.get('content-type')).toBe('text/csv')
    expect(await file.text()).toBe(gameLike(501).join('\n'))
  })
})
