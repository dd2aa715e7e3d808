import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { proposeLoose } from '../../../src/core/firmwareTable/propose.ts'
import { readFirmware, readHandedTable } from '../../../src/input/firmwareBytes.ts'
import { arbitraryTable } from './arbitraryTable.ts'
import { dumpOf, entry32, structuresFor, tableFor, windowsOf } from './buildTable.ts'

/**
 * Spoiled firmware tables by the million: each must be read or refused in one message, fast, without growing memory.
 *
 *   npm run mutate -- [INPUTS] [SEED]
 *
 * Starts from tables that it builds, and from public ones where STILLFITS_PUBLIC_TABLES names a folder of them. Prints
 * what became of them, the slowest one and the memory after each tenth; ends with 1 at the first one that is thrown.
 */
const [wanted = '2000000', seedText = '1'] = process.argv.slice(2)
const INPUTS = Number(wanted)
const SEED = Number(seedText)
if (!Number.isInteger(INPUTS) || INPUTS < 10 || !Number.isInteger(SEED)) {
  process.stderr.write('Give the number of inputs (10 or more) and the seed, both whole numbers.\n')
  process.exit(2)
}

/** Numbers by chance from 0 to 2^32 - 1, the same for the same seed (mulberry32). */
function chance(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return (t ^ (t >>> 14)) >>> 0
  }
}
const next = chance(SEED)
const below = (n: number): number => (n === 0 ? 0 : next() % n)

const built = fc.sample(arbitraryTable, { numRuns: 40, seed: SEED }).flatMap((table) => {
  const bytes = tableFor(table)
  return [
    bytes,
    windowsOf(bytes),
    dumpOf(bytes),
    dumpOf(bytes, entry32(bytes.length, structuresFor(table).length)),
  ]
})
const FOLDER = process.env.STILLFITS_PUBLIC_TABLES
const found =
  FOLDER === undefined
    ? []
    : readdirSync(FOLDER)
        .filter((name) => name.endsWith('.bin'))
        .map((name) => new Uint8Array(readFileSync(join(FOLDER, name))))
const STARTS = [...built, ...found]

/** What lengths, counts and indexes are spoiled with. */
const EDGES = [0, 1, 3, 4, 5, 0x7f, 0x80, 0xfe, 0xff]

const MUTATIONS: readonly ((bytes: Uint8Array) => Uint8Array)[] = [
  (bytes) => bytes.with(below(bytes.length), below(256)),
  (bytes) => bytes.with(below(bytes.length), EDGES[below(EDGES.length)] ?? 0),
  (bytes) => {
    const at = below(bytes.length)
    return bytes.with(at, (bytes[at] ?? 0) ^ (1 << below(8)))
  },
  (bytes) => bytes.subarray(0, below(bytes.length + 1)),
  (bytes) => bytes.subarray(below(bytes.length)),
  // A piece out, a piece twice, a piece of chance, a piece of another table.
  (bytes) => spliced(bytes, below(bytes.length), below(64), new Uint8Array()),
  (bytes) => {
    const at = below(bytes.length)
    return spliced(bytes, at, 0, bytes.subarray(at, at + below(256)))
  },
  (bytes) =>
    spliced(
      bytes,
      below(bytes.length),
      below(16),
      Uint8Array.from({ length: below(32) }, () => below(256)),
    ),
  (bytes) => {
    const other = STARTS[below(STARTS.length)] ?? bytes
    return spliced(bytes, below(bytes.length), below(64), other.subarray(below(other.length)))
  },
  (bytes) => bytes.slice().fill(0, below(bytes.length), below(bytes.length)),
]

function spliced(bytes: Uint8Array, at: number, out: number, into: Uint8Array): Uint8Array {
  const made = new Uint8Array(Math.max(bytes.length - out, at) + into.length)
  made.set(bytes.subarray(0, at))
  made.set(into, at)
  made.set(bytes.subarray(at + out, at + out + made.length - at - into.length), at + into.length)
  return made
}

/** With its header put right in half of the cases, so that the table behind it is what is tried. */
function mended(bytes: Uint8Array): Uint8Array {
  if (below(2) === 0 || bytes.length < 40) return bytes
  const made = bytes.slice()
  const view = new DataView(made.buffer)
  const sum = (from: number, to: number) => made.subarray(from, to).reduce((a, b) => (a + b) & 0xff, 0)
  if (made[0] === 0x5f && made[3] === 0x33) {
    made[5] = 0
    made[5] = -sum(0, 0x18) & 0xff
  } else if (made[0] === 0x5f) {
    view.setUint16(0x16, made.length - 32, true)
    made[0x15] = 0
    made[0x15] = -sum(0x10, 0x1f) & 0xff
    made[4] = 0
    made[4] = -sum(0, 0x1f) & 0xff
  } else if ((made[0] ?? 9) <= 1 && (made[1] === 2 || made[1] === 3)) view.setUint32(4, made.length - 8, true)
  return made
}

function inputBy(n: number): Uint8Array | string {
  let bytes = STARTS[below(STARTS.length)] ?? new Uint8Array(1)
  for (let i = below(4); i >= 0; i--)
    bytes = (MUTATIONS[below(MUTATIONS.length)] ?? mended)(bytes.length === 0 ? new Uint8Array(1) : bytes)
  bytes = mended(bytes)
  if (n % 16 !== 0) return bytes
  const text = Buffer.from(bytes).toString(n % 32 === 0 ? 'base64' : 'hex')
  const at = below(text.length)
  return below(2) === 0
    ? text
    : `${text.slice(0, at)}${String.fromCharCode(below(128))}${text.slice(at + below(3))}`
}

const became = new Map<string, number>()
const collect = (globalThis as { gc?: () => void }).gc ?? (() => {})
const heapMB = (): number => {
  collect()
  return Math.round(process.memoryUsage().heapUsed / 1e5) / 10
}

/** Reads one input to the end; throws at anything that a person would see as a fault. */
function tryOne(input: Uint8Array | string, n: number): string | undefined {
  const result = readFirmware(input, 'table')
  if (!result.ok) {
    if (result.problems.length !== 1) throw new Error(`${result.problems.length} problems`)
    return result.problems[0]?.next ?? ''
  }
  proposeLoose(result.value, [])
  if (n % 64 === 0 && !readHandedTable(JSON.stringify(result.value), 'table').ok)
    throw new Error('a table that was read is refused when it is handed on')
  return undefined
}

const timed = (input: Uint8Array | string): number => {
  const start = performance.now()
  tryOne(input, 0)
  return performance.now() - start
}

let slowestMs = 0
let read = 0
const began = performance.now()
process.stdout.write(
  `${INPUTS} inputs, seed ${SEED}, from ${built.length} built and ${found.length} public tables\n`,
)
const heaps = [heapMB()]
for (let n = 1; n <= INPUTS; n++) {
  const input = inputBy(n)
  const start = performance.now()
  try {
    const says = tryOne(input, n)
    const tookMs = performance.now() - start
    if (says === undefined) read++
    else became.set(says.replaceAll(/\d+/g, 'N'), (became.get(says.replaceAll(/\d+/g, 'N')) ?? 0) + 1)
    // Another program may have had the processor meanwhile: the best of three counts.
    if (tookMs > slowestMs) slowestMs = Math.max(slowestMs, Math.min(tookMs, timed(input), timed(input)))
  } catch (error) {
    const hex = typeof input === 'string' ? input : Buffer.from(input).toString('hex')
    process.stderr.write(`input ${n} was thrown: ${String(error)}\n${hex}\n`)
    process.exit(1)
  }
  if (n % Math.floor(INPUTS / 10) === 0) heaps.push(heapMB())
}
const seconds = (performance.now() - began) / 1000
process.stdout.write(`read ${read}, refused ${INPUTS - read}, thrown 0\n`)
for (const [says, count] of [...became].sort((a, b) => b[1] - a[1]))
  process.stdout.write(`  ${String(count).padStart(9)}  ${says}\n`)
process.stdout.write(
  `${seconds.toFixed(0)} s, slowest ${slowestMs.toFixed(1)} ms; heap in MB: ${heaps.join(' ')}\n`,
)
