import { describe, expect, test } from 'vitest'
import type { Build } from '../../../src/core/build.ts'
import { GENERATION_NAMES } from '../../../src/core/facts/generations.ts'
import { NEXT_SYSTEM, SYSTEM_PROCESSORS } from '../../../src/core/facts/systemVersions.ts'
import type { Finding, RuleId } from '../../../src/core/fit/finding.ts'
import type { LimitKey, LimitValues } from '../../../src/core/limits/limit.ts'
import type { Drive } from '../../../src/core/part.ts'
import { board, kit, limits, machine, processor, says } from './bench.ts'

const drive: Drive = { kind: 'drive', id: 'DRV-OLD', name: 'Old drive', capacityGB: 240 }
const whole: Build = { ...machine, drives: [drive] }

type Ask = { had?: Partial<Build>; at?: Partial<LimitValues>; not?: readonly LimitKey[] }
const found = (id: RuleId, { had = {}, at = {}, not = [] }: Ask = {}): Finding | undefined =>
  says(id, { work: ['system upgrade'], before: { ...whole, ...had }, limits: limits(at, not) })
const verdict = (id: RuleId, ask?: Ask) => found(id, ask)?.verdict
const missing = (id: RuleId, ask: Ask): readonly string[] =>
  found(id, ask)?.missing.map((m) => ('limit' in m ? m.limit : m.spec)) ?? []

const RULES_HERE = [
  ...(['system.processor', 'system.trustModule', 'system.secureStart'] as const),
  ...(['system.memory', 'system.disk'] as const),
]

test('the rules speak where the system is upgraded, and are silent about everything else', () => {
  for (const id of RULES_HERE) {
    expect(verdict(id), id).toBe('fits')
    expect(says(id, { add: [{ ...board, id: 'BRD-NEW' }], work: ['reinstall'], before: whole }), id).toBe(
      undefined,
    )
  }
})

// Microsoft, Windows 11 requirements (2023-02-13), Hardware requirements: "4 gigabytes (GB) or greater",
// "64 GB or greater available disk space", "UEFI, Secure Boot capable", "TPM version 2.0".
describe('the published least', () => {
  test.each([
    [1, 2, 'fits after work'],
    [1, 3, 'fits after work'],
    [2, 2, 'fits'],
    [1, 4, 'fits'],
    [2, 4, 'fits'],
  ] as const)('memory: %i x %i GB', (modules, moduleGB, want) => {
    expect(verdict('system.memory', { had: { memory: [{ ...kit, modules, moduleGB }] } })).toBe(want)
  })

  test.each([
    [60, 'fits after work'],
    [63, 'fits after work'],
    [64, 'fits'],
    [120, 'fits'],
  ] as const)('drive: %i GB', (capacityGB, want) => {
    expect(verdict('system.disk', { had: { drives: [{ ...drive, capacityGB }] } })).toBe(want)
  })

  test('two small drives do not make a large one, and a large one beside an unknown one is enough', () => {
    const small = { ...drive, id: 'A', capacityGB: 60 }
    const unknown: Drive = { kind: 'drive', id: 'B', name: 'Some drive' }
    expect(verdict('system.disk', { had: { drives: [small, { ...small, id: 'C' }] } })).toBe(
      'fits after work',
    )
    expect(verdict('system.disk', { had: { drives: [unknown, drive] } })).toBe('fits')
    expect(verdict('system.disk', { had: { drives: [small, unknown] } })).toBe("can't tell")
    expect(missing('system.disk', { had: { drives: [small, unknown] } })).toEqual(['capacityGB'])
  })

  test.each([
    ['2.0', 'fits'],
    ['1.2', 'does not fit'],
    ['none', 'does not fit'],
  ] as const)('trust module %s', (trustModule, want) => {
    expect(verdict('system.trustModule', { at: { trustModule } })).toBe(want)
  })

  test.each([
    ['yes', 'fits'],
    ['no', 'does not fit'],
  ] as const)('able to start signed systems only: %s', (secureStart, want) => {
    expect(verdict('system.secureStart', { at: { secureStart } })).toBe(want)
  })
})

describe('unknown is never fine', () => {
  test.each([
    ['system.processor', { had: { processor: undefined } }, 'processor'],
    ['system.processor', { had: { processor: { ...processor, generation: undefined } } }, 'generation'],
    ['system.trustModule', { not: ['trustModule'] }, 'trustModule'],
    ['system.secureStart', { not: ['secureStart'] }, 'secureStart'],
    ['system.memory', { had: { memory: [] } }, 'memory'],
    ['system.memory', { had: { memory: [{ ...kit, moduleGB: undefined }] } }, 'moduleGB'],
    ['system.disk', { had: { drives: [] } }, 'drive'],
  ] as const)('%s %j names %s', (id, ask, what) => {
    expect(verdict(id, ask as Ask)).toBe("can't tell")
    expect(missing(id, ask as Ask)).toContain(what)
  })
})

describe('the list of processors', () => {
  const of = (generation: string) =>
    found('system.processor', { had: { processor: { ...processor, generation } } })

  // Microsoft, lists of supported processors for Windows 11: Core from the 8th generation, Ryzen from the 2000.
  // The graphics models of the Ryzen 2000 (first Zen design) are not on the list: from memory.
  test.each([
    ['4th (Haswell)', 'does not fit'],
    ['7th (Kaby Lake)', 'does not fit'],
    ['8th (Coffee Lake)', 'fits'],
    ['14th (Raptor Lake Refresh)', 'fits'],
    ['Ryzen 1000 (Zen)', 'does not fit'],
    ['Ryzen 2000 (Zen+)', 'fits'],
    ['Ryzen 2000G (Raven Ridge)', 'does not fit'],
    ['Ryzen 3000G (Picasso)', 'fits'],
    ['FX (AM3+)', 'does not fit'],
  ] as const)('%s', (generation, want) => {
    expect(of(generation)?.verdict).toBe(want)
  })

  test('a generation that is partly listed promises nothing and says which model to look for', () => {
    const f = of('Athlon 200GE-3000G')
    expect(f?.verdict).toBe("can't tell")
    expect(f?.missing).toMatchObject([{ spec: 'processorClass', doubt: expect.stringContaining('3000G') }])
  })

  test('a generation that the table does not have promises nothing either', () => {
    expect(of('Some Xeon')?.verdict).toBe("can't tell")
    expect(of('Some Xeon')?.missing).toMatchObject([{ doubt: expect.stringContaining('list of processors') }])
  })

  test('has a row with its confidence for every generation, and says what to look up where it is partly listed', () => {
    expect(Object.keys(SYSTEM_PROCESSORS).sort()).toEqual([...GENERATION_NAMES].sort())
    for (const row of Object.values(SYSTEM_PROCESSORS)) {
      expect(row.confidence).toMatch(/^(seen|memory)$/)
      expect(row.lookUp === undefined).toBe(row.listed !== 'partly listed')
    }
    expect(NEXT_SYSTEM.source.kind).toBe('vendor')
  })
})
