import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildOf } from '../../../src/core/build.ts'
import { WORK_IDS, type WorkId } from '../../../src/core/fit/finding.ts'
import { judgeChange } from '../../../src/core/fit/judgeChange.ts'
import { fittedOf, memoryAsItRuns, rateWithProfile } from '../../../src/core/limits/asItRuns.ts'
import { LIMIT_KEYS } from '../../../src/core/limits/catalogue.ts'
import type { Claim, LimitKey, LimitValues } from '../../../src/core/limits/limit.ts'
import { claimsAfter, limitsOf } from '../../../src/core/limits/resolve.ts'
import type { MemoryKit, Part } from '../../../src/core/part.ts'
import { effectOf, opensMachine, WORK_CATALOGUE, workNamed } from '../../../src/core/work/catalogue.ts'
import { policy } from '../fit/bench.ts'
import { board, card, cpu, drive, fan, kit, machine } from '../fit/casebook/parts.ts'

// Invented models on real chipsets and generations. Rates: Intel product pages (10th generation i5 DDR4-2666) and
// Intel chipset pages (H410 no memory overclocking, B560 yes); when work is worth doing: common practice.

const i5 = cpu('10th (Comet Lake)', 'i5')
const d3200 = kit('DDR4', 2, 8, 3200)
const claim = <K extends LimitKey>(
  key: K,
  value: LimitValues[K],
  source: Claim['source'] = 'measured',
): Claim => ({ key, value, source }) as Claim

const stateOf = (id: WorkId, parts: readonly Part[], claims: readonly Claim[] = []) => {
  const build = buildOf(parts)
  const now = workNamed(id)?.stateOf(build, limitsOf(build, claims))
  return now?.state === 'check first' ? `check ${now.limits.join()}` : now?.state
}
const withMemory = (chipset: string, memory: MemoryKit, ...more: readonly Part[]) =>
  machine(board(chipset), i5, memory, ...more)

describe('the memory profile', () => {
  const rateOn = (chipset: string, memory: MemoryKit) => {
    const build = buildOf(withMemory(chipset, memory))
    return rateWithProfile(build, limitsOf(build, []))
  }
  test.each([
    ['B560', 2133, 2133, 'the label decides'],
    ['B560', 3200, 3200, 'above the processor, where the chipset is open'],
    ['B560', 4600, 4600, 'up to the board’s page'],
    ['B560', 4601, 4600, 'and no further'],
    ['H410', 2665, 2665, 'below the processor’s rate the label decides on a locked board, too'],
    ['H410', 2666, 2666, 'at it'],
    ['H410', 3200, 2666, 'above it the processor decides'],
  ])('%s with a kit of %i runs at %i: %s', (chipset, label, runs) => {
    expect(rateOn(chipset, kit('DDR4', 2, 8, label))).toBe(runs)
  })

  test('an open board whose page nobody read gives no rate', () => {
    const parts = machine(board('B560', { memoryRateMtsMax: undefined }), i5, d3200)
    const build = buildOf(parts)
    expect(rateWithProfile(build, limitsOf(build, []))).toBeUndefined()
    expect(memoryAsItRuns(build, limitsOf(build, [claim('memoryProfileOn', 'yes')]))).toBeUndefined()
    expect(memoryAsItRuns(build, limitsOf(build, [claim('memoryProfileOn', 'no')]))?.rateMts).toBe(2666)
  })

  test.each([
    [undefined, undefined, 2666],
    ['no', undefined, 2666],
    ['yes', undefined, 3200],
    ['yes', 2933, 2933],
    ['no', 2400, 2400],
  ] as const)('profile %s, reading %s: the memory runs at %i', (on, reading, runs) => {
    const claims = [
      ...(on === undefined ? [] : [claim('memoryProfileOn', on)]),
      ...(reading === undefined ? [] : [claim('memoryRunsMts', reading, 'read')]),
    ]
    const build = buildOf(withMemory('B560', d3200))
    expect(memoryAsItRuns(build, limitsOf(build, claims))?.rateMts).toBe(runs)
  })

  test.each([
    ['B560', 3200, [], 'check memoryProfileOn', 'nobody looked'],
    ['B560', 3200, [claim('memoryProfileOn', 'no')], 'to do', 'somebody saw it off'],
    ['B560', 3200, [claim('memoryRunsMts', 2666, 'read')], 'to do', 'a reading below the label shows it'],
    ['B560', 3200, [claim('memoryRunsMts', 3199, 'read')], 'to do', 'just below'],
    ['B560', 3200, [claim('memoryRunsMts', 3200, 'read')], 'nothing to do', 'at the label'],
    ['B560', 3200, [claim('memoryRunsMts', 3201, 'read')], 'nothing to do', 'above it'],
    ['B560', 3200, [claim('memoryProfileOn', 'yes')], 'nothing to do', 'it is on'],
    ['B560', 2666, [], 'nothing to do', 'a plain kit runs as labelled'],
    ['H410', 3200, [], 'nothing to do', 'a locked board gives no more'],
    ['H410', 3200, [claim('memoryProfileOn', 'no')], 'nothing to do', 'also where it is off'],
    ['H410', 3200, [claim('memoryRunsMts', 2400, 'read')], 'to do', 'up to the processor’s rate it does'],
  ] as const)('%s, %i, %j: %s, because %s', (chipset, label, claims, state, _why) => {
    expect(stateOf('memory profile on', withMemory(chipset, kit('DDR4', 2, 8, label)), claims)).toBe(state)
  })

  test('off, on a board whose page nobody read: the page is what is missing', () => {
    const parts = machine(board('B560', { memoryRateMtsMax: undefined, chipset: undefined }), i5, d3200)
    expect(stateOf('memory profile on', parts, [claim('memoryProfileOn', 'no')])).toMatch(
      /^check memoryOverclock/,
    )
    expect(stateOf('memory profile on', parts)).toBe('nothing to do')
  })
})

test('the profile on an open board whose page nobody read promises nothing above the processor', () => {
  const judged = (label: number) => {
    const parts = machine(board('B560', { memoryRateMtsMax: undefined }), i5, kit('DDR4', 2, 8, label))
    const change = { add: [], removeIds: [], work: ['memory profile on'] }
    const { findings } = judgeChange({ tag: 'M-1', build: buildOf(parts), claims: [] }, change, policy)
    return findings.find((f) => f.rule === 'work.memoryProfile')
  }
  expect(judged(2666)?.verdict).toBe('fits')
  expect(judged(2667)).toMatchObject({ verdict: "can't tell", missing: [{ limit: 'boardRateMts' }] })
})

describe('where the modules sit', () => {
  test.each([
    [1, 4, [], 'nothing to do', 'one module uses one channel wherever it sits'],
    [2, 4, [], 'check modulesInBothChannels', 'two of four slots: nobody looked'],
    [2, 2, [], 'nothing to do', 'two of two slots are both channels'],
    [4, 4, [], 'nothing to do', 'all slots in use'],
    [2, 4, [claim('modulesInBothChannels', 'no')], 'to do', 'seen in one'],
    [2, 4, [claim('modulesInBothChannels', 'yes')], 'nothing to do', 'seen in both'],
    [1, 4, [claim('modulesInBothChannels', 'no')], 'nothing to do', 'there is nothing to move to'],
  ] as const)('%i modules in %i slots, %j: %s, because %s', (modules, memorySlots, claims, state, _why) => {
    const parts = machine(board('B460', { memorySlots }), i5, kit('DDR4', modules, 8, 2666))
    expect(stateOf('move modules', parts, claims)).toBe(state)
  })

  test.each([
    [1, undefined, 1],
    [2, undefined, 2],
    [2, 'no', 1],
    [3, 'no', 1],
    [2, 'yes', 2],
    [1, 'yes', 1],
  ] as const)('%i modules, in both channels %s: %i in use', (modules, both, channels) => {
    const build = buildOf(machine(board('B460'), i5, kit('DDR4', modules, 8, 2666)))
    const claims = both === undefined ? [] : [claim('modulesInBothChannels', both)]
    expect(memoryAsItRuns(build, limitsOf(build, claims))?.channels).toBe(channels)
  })
})

describe('the display', () => {
  const without = cpu('Ryzen 2000 (Zen+)', 'Ryzen 5')
  test.each([
    [i5, [], 'check displayPluggedInto'],
    [i5, [claim('displayPluggedInto', 'board')], 'to do'],
    [i5, [claim('displayPluggedInto', 'card')], 'nothing to do'],
  ] as const)('%#: %s', (processor, claims, state) => {
    expect(stateOf('display into card', machine(board('B460'), processor), claims)).toBe(state)
  })
  test('a processor without graphics shows nothing on the board’s sockets, so nobody is asked', () => {
    expect(stateOf('display into card', machine(board('B450'), without))).toBe('nothing to do')
  })
  test('with the display in the board no run of the card speaks of this machine', () => {
    const build = buildOf(machine(board('B460'), i5))
    const at = (seat: 'card' | 'board') =>
      fittedOf(build, limitsOf(build, [claim('displayPluggedInto', seat)]))?.cardId
    expect(at('board')).toBeUndefined()
    expect(at('card')).toBe('CARD old')
  })
})

describe('firmware is changed for a reason', () => {
  const listed = board('B450', { firmwareByGeneration: { 'Ryzen 2000 (Zen+)': '1.40' } })
  const parts = machine(listed, cpu('Ryzen 2000 (Zen+)', 'Ryzen 5'))
  test.each([
    ['1.39', 'to do'],
    ['1.40', 'nothing to do'],
    ['1.41', 'nothing to do'],
    ['F4', 'check firmware'],
  ])('version %s: %s', (version, state) => {
    expect(stateOf('firmware update', parts, [claim('firmware', version, 'read')])).toBe(state)
  })
  test('unread it is to be looked at; without a list there is no reason', () => {
    expect(stateOf('firmware update', parts)).toBe('check firmware')
    expect(stateOf('firmware update', machine(board('B450'), cpu('Ryzen 2000 (Zen+)', 'Ryzen 5')))).toBe(
      'nothing to do',
    )
  })
})

describe('work that nobody can compute', () => {
  const full = [...machine(board('B460'), i5, fan('front')), { ...drive, id: 'DRIVE second' }]
  test.each([
    ['cleaning', 'coolingClean', full],
    ['fan in front', 'frontFanFitted', full],
    ['driver clean-up', 'driversClean', full],
    ['reinstall', 'systemFresh', full],
    ['drive cloned', 'systemOnFastestDrive', full],
  ] as const)('%s hangs on %s alone', (id, key, parts) => {
    expect(stateOf(id, parts)).toBe(`check ${key}`)
    expect(stateOf(id, parts, [claim(key, 'no')])).toBe('to do')
    expect(stateOf(id, parts, [claim(key, 'yes')])).toBe('nothing to do')
  })
  test.each([
    ['fan in front', 'frontFanFitted', machine(board('B460'), i5)],
    ['driver clean-up', 'driversClean', machine(board('B460'), i5).filter((p) => p.kind !== 'card')],
    ['drive cloned', 'systemOnFastestDrive', machine(board('B460'), i5)],
  ] as const)('%s needs something to work with', (id, key, parts) => {
    expect(stateOf(id, parts, [claim(key, 'no')])).toBe('nothing to do')
  })
  test.each(['remove old modules', 'move front fan', 'fit bracket'] as const)('%s only when asked', (id) => {
    expect(stateOf(id, full)).toBe('nothing to do')
  })
})

describe('what work leaves behind', () => {
  const stored = LIMIT_KEYS.map((key) => ({ key, value: 1, source: 'measured' }) as Claim)
  const tag = { tag: 'M-1', build: buildOf(machine(board('B560'), i5, d3200)), claims: stored }
  const leftBy = (...work: string[]) => claimsAfter(tag, { add: [], removeIds: [], work })

  test.each([
    ['memory profile on', ['memoryRunsMts'], 'memoryProfileOn', 'yes'],
    ['move modules', [], 'modulesInBothChannels', 'yes'],
    ['display into card', [], 'displayPluggedInto', 'card'],
    ['cleaning', [], 'coolingClean', 'yes'],
    ['fan in front', ['cardRoomMm'], 'frontFanFitted', 'yes'],
    ['driver clean-up', [], 'driversClean', 'yes'],
    ['reinstall', [], 'systemFresh', 'yes'],
    ['drive cloned', [], 'systemOnFastestDrive', 'yes'],
  ] as const)('%s ends %j and leaves %s %s', (work, ends, key, value) => {
    const left = leftBy(work)
    const gone = LIMIT_KEYS.filter((k) => !left.some((c) => c.key === k))
    expect(gone).toEqual(ends)
    expect(left.filter((c) => c.key === key).map((c) => c.value)).toEqual([value])
    expect(left.filter((c) => c.key !== key).every((c) => stored.includes(c))).toBe(true)
  })

  test('a work that nobody knows, and one that leaves nothing, change no claim', () => {
    expect(leftBy('polishing')).toEqual(stored)
    expect(leftBy('fit bracket')).toEqual(stored)
    expect(leftBy()).toEqual(stored)
  })

  test('a profile switched on with a new kit is on; a new kit alone has none', () => {
    const kits = { add: [kit('DDR4', 2, 16, 3200)], removeIds: [d3200.id] }
    const on = { ...tag, claims: [claim('memoryProfileOn', 'yes')] }
    expect(claimsAfter(on, { ...kits, work: ['memory profile on'] }).map((c) => c.value)).toEqual(['yes'])
    expect(claimsAfter(on, { ...kits, work: [] })).toEqual([])
  })

  test('a new card keeps the profile, a new processor too', () => {
    const on = { ...tag, claims: [claim('memoryProfileOn', 'yes')] }
    const swap = { removeIds: [], work: [], add: [card('new'), cpu('10th (Comet Lake)', 'i7')] }
    expect(claimsAfter(on, swap)).toEqual(on.claims)
  })
})

describe('the table of works', () => {
  test('has one row for each work, in the order of the list, and what it leaves is what it asks for', () => {
    expect(WORK_CATALOGUE.map((row) => row.id)).toEqual(WORK_IDS)
    for (const row of WORK_CATALOGUE) {
      expect(row.does.length, row.id).toBeGreaterThan(15)
      expect(row.leaves.map((c) => c.key)).toEqual(row.undone === undefined ? [] : [row.undone.key])
      expect(row.leaves.every((c) => c.value !== row.undone?.value)).toBe(true)
      expect(new Set(row.cautions).size).toBe(row.cautions.length)
    }
  })

  // Common practice and service manuals: firmware and system work asks for a copy of the files.
  test('every work on system, firmware or settings asks for a backup', () => {
    const asks = (id: WorkId) => workNamed(id)?.cautions.includes('backup')
    expect(
      (
        ['memory profile on', 'firmware update', 'driver clean-up', 'reinstall', 'drive cloned'] as const
      ).filter((id) => !asks(id)),
    ).toEqual([])
  })

  test('a work that nobody knows is taken to need hands inside', () => {
    expect([opensMachine('polishing'), opensMachine('cleaning'), opensMachine('memory profile on')]).toEqual([
      true,
      true,
      false,
    ])
  })

  test('law: a work that was done has nothing to do, whatever was claimed before', () => {
    const parts = [...machine(board('B560'), i5, d3200, fan('front')), { ...drive, id: 'DRIVE second' }]
    const build = buildOf(parts)
    const yesNo = fc.constantFrom('yes' as const, 'no' as const, undefined)
    const claims = fc
      .record({
        memoryProfileOn: yesNo,
        modulesInBothChannels: yesNo,
        coolingClean: yesNo,
        systemFresh: yesNo,
      })
      .map((states) =>
        Object.entries(states).flatMap(([key, value]) =>
          value === undefined ? [] : [claim(key as LimitKey, value)],
        ),
      )
    const doable = WORK_CATALOGUE.filter((row) => row.undone !== undefined)
    fc.assert(
      fc.property(claims, fc.constantFrom(...doable), (before, row) => {
        const left = claimsAfter(
          { tag: 'M-1', build, claims: before },
          { add: [], removeIds: [], work: [row.id] },
        )
        expect(row.stateOf(build, limitsOf(build, left)).state).toBe('nothing to do')
        // Neutral the second time.
        expect([...effectOf([row.id, row.id]).ends]).toEqual([...effectOf([row.id]).ends])
      }),
    )
  })

  test('law: odd and missing figures never throw, and never make a work "to do" by themselves', () => {
    const odd = fc.constantFrom(undefined, Number.NaN, -1, 0, Number.POSITIVE_INFINITY, 3200)
    fc.assert(
      fc.property(
        odd,
        odd,
        odd,
        fc.constantFrom('B560', 'H410', 'nonsense'),
        (rate, modules, page, chipset) => {
          const build = buildOf(
            machine(board('B560', { chipset, memoryRateMtsMax: page, memorySlots: modules }), i5, {
              ...d3200,
              rateMts: rate,
              modules,
            }),
          )
          for (const row of WORK_CATALOGUE)
            expect(row.stateOf(build, limitsOf(build, [])).state, row.id).not.toBe('to do')
        },
      ),
    )
  })
})
