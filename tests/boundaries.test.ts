import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

/**
 * Who may import whom, from the real imports. The table is DEVELOPERS.md's; a path that is not listed may import
 * nothing. `npm:` names packages; `node:` names Node's own modules.
 */
const root = fileURLToPath(new URL('..', import.meta.url))

const ALLOWED: Record<string, readonly (string | RegExp)[]> = {
  'src/core': ['src/core'],
  'src/words': ['src/words', 'src/core'],
  'src/input': [
    'src/input',
    'src/core',
    'src/problem.ts',
    'npm:zod',
    'npm:papaparse',
    'node:string_decoder',
    'node:util',
  ],
  'src/store': [
    'src/store',
    'src/core',
    'src/problem.ts',
    'src/input/parts.ts',
    'src/input/stored.ts',
    'db',
    'npm:drizzle-orm',
    'npm:@libsql/client',
    'npm:zod',
    /^node:/,
  ],
  'src/mail': ['src/mail', 'src/words', 'src/core', 'npm:mjml', 'npm:nodemailer', 'npm:zod', /^node:/],
  'src/paper': ['src/paper', 'src/words', 'src/core', 'npm:pdfkit', 'npm:uqr', /^node:/],
  'src/uses/gain': [
    'src/uses',
    'src/core',
    'src/words',
    'src/store',
    'src/input',
    'src/problem.ts',
    'node:worker_threads',
  ],
  'src/uses/threads': ['node:worker_threads'],
  'src/uses/answers': ['src/uses', 'src/core', 'src/store', 'node:worker_threads', 'node:crypto'],
  'src/uses/longWork': [
    ...['src/uses', 'src/core', 'src/store', 'src/problem.ts', 'node:worker_threads', 'node:crypto'],
  ],
  'src/uses': [
    'src/uses',
    'src/core',
    'src/words',
    'src/store',
    'src/input',
    'src/mail',
    'src/paper',
    'src/problem.ts',
    'node:util',
    'node:crypto',
  ],
  'src/web/api': [
    'src/web',
    'src/uses',
    'src/input',
    'src/words',
    'src/core',
    'src/problem.ts',
    'npm:hono',
    'npm:@hono/zod-openapi',
    'npm:zod',
    /^node:/,
  ],
  'src/web': [
    'src/web',
    'src/uses',
    'src/input',
    'src/words',
    'src/core',
    'src/problem.ts',
    'npm:hono',
    'npm:@hono/node-server',
    'npm:@fastify/busboy',
    /^node:/,
  ],
  'src/cli': [
    'src/cli',
    'src/uses',
    'src/input',
    'src/words',
    'src/core',
    'src/store',
    'src/mail',
    'src/problem.ts',
    /^node:/,
  ],
  'src/problem.ts': [],
  'src/fault.ts': [],
  'src/settings.ts': ['src/problem.ts', 'src/mailSettings.ts', 'npm:zod', 'node:net'],
  'src/mailSettings.ts': ['src/problem.ts', 'src/mail', 'npm:zod'],
  'src/operate': [/./],
  'src/sending.ts': [/./],
  'src/main.ts': [/./],
  'src/serve.ts': [/./],
  'src/usesOf.ts': ['src/uses', 'src/web', 'src/store', 'src/core', 'src/problem.ts'],
  db: ['db', 'npm:drizzle-orm', 'src/core'],
}

const filesUnder = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile() && /\.tsx?$/.test(e.name))
    .map((e) => relative(root, join(e.parentPath, e.name)))

const importsOf = (file: string): string[] => {
  const text = readFileSync(join(root, file), 'utf8')
  const found = text.matchAll(
    /(?:^|\n)\s*(?:import|export)\b[^'"]*?from\s*'([^']+)'|import\('([^']+)'\)|(?:^|\n)import '([^']+)'/g,
  )
  return [...found].map((m) => m[1] ?? m[2] ?? m[3] ?? '')
}

const targetOf = (file: string, specifier: string): string => {
  if (specifier.startsWith('.')) return relative(root, resolve(root, dirname(file), specifier))
  if (specifier.startsWith('node:')) return specifier
  return `npm:${specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/')}`
}

const ownerOf = (file: string): string | undefined =>
  Object.keys(ALLOWED).find((place) => file === place || file.startsWith(`${place}/`))

const isAllowed = (owner: string, target: string): boolean =>
  (ALLOWED[owner] ?? []).some((rule) =>
    typeof rule === 'string' ? target === rule || target.startsWith(`${rule}/`) : rule.test(target),
  )

const files = [...filesUnder('src'), ...filesUnder('db')]

test('every source file has a place in the table', () => {
  expect(files.length).toBeGreaterThan(20)
  expect(files.filter((file) => ownerOf(file) === undefined)).toEqual([])
})

test('no file imports what its place may not', () => {
  const breaches = files.flatMap((file) => {
    const owner = ownerOf(file) ?? ''
    return importsOf(file)
      .map((specifier) => targetOf(file, specifier))
      .filter((target) => !isAllowed(owner, target))
      .map((target) => `${file} imports ${target}`)
  })
  expect(breaches).toEqual([])
})

test('the core has no clock and no chance', () => {
  const impure = /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(|\bprocess\.|\bfetch\(/
  const found = filesUnder('src/core').filter((file) => impure.test(readFileSync(join(root, file), 'utf8')))
  expect(found).toEqual([])
})

test('the check itself sees a breach', () => {
  expect(isAllowed('src/core', 'src/store/open.ts')).toBe(false)
  expect(isAllowed('src/core', 'npm:zod')).toBe(false)
  expect(isAllowed('src/core', 'src/core/part.ts')).toBe(true)
  expect(targetOf('src/web/app.tsx', '../store/open.ts')).toBe('src/store/open.ts')
})

/** What scores the model, and what it is scored beside; the rest of the simulator makes the runs. */
const SCORES = /\.test\.ts$|\/(accuracy|baselines|nextRun|oddScore|predictors|promises)(\.ts|\/)/

test('what makes invented runs takes nothing from the program but types, so its physics is blind to the model', () => {
  const makers = filesUnder('tests/simulator').filter((file) => !SCORES.test(file))
  expect(makers).toEqual(expect.arrayContaining(['tests/simulator/stages.ts', 'tests/simulator/frames.ts']))
  const taken = makers.flatMap((file) => {
    const text = readFileSync(join(root, file), 'utf8')
    const lines = text.match(/^(?:import|export)\b[^'"]*?from\s*'[^']+'|import\('[^']+'\)/gm) ?? []
    return lines
      .filter((line) => !line.startsWith('import type'))
      .map((line) => targetOf(file, /'([^']+)'/.exec(line)?.[1] ?? ''))
      .filter((target) => !target.startsWith('tests/simulator/') && !target.startsWith('node:'))
      .map((target) => `${file} takes ${target}`)
  })
  expect(taken).toEqual([])
})
