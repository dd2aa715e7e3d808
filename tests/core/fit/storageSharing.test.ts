import { describe, expect, test } from 'vitest'
import type { Part } from '../../../src/core/part.ts'
import { card } from './bench.ts'
import { ask, bare, cabled, flat, otherBoard, socket, withSockets } from './storageBench.ts'

const off = (name: string, ...sataPortsOff: string[]) => socket(name, { sataPortsOff })
const shares = (name: string) => socket(name, { sharesSlot: true })

describe('SATA ports that a socket turns off', () => {
  // A B550 board's manual, M.2 slot table: slot 3 in use -> SATA ports 5 and 6 are off. Six ports, so four are left.
  test.each([
    [0, 'fits'],
    [1, 'fits after work'],
    [4, 'fits after work'],
    [5, 'does not fit'],
  ])('%i drives on cables beside it: %s', (count, gives) => {
    const parts = Array.from({ length: count }, (_, i) => cabled(`SATA-${i}`))
    const before = withSockets([off('M2_3', 'SATA5', 'SATA6')], ...parts)
    const f = ask('storage.sharing', before, [flat('NEW')], { at: { sataPorts: 6 } })
    expect(f).toMatchObject({ verdict: gives, values: { socket: 'M2_3', sataDrives: count, portsLeft: 4 } })
    expect(f?.needs).toEqual(gives === 'fits after work' ? [{ work: 'move drive cables' }] : [])
  })

  test('a socket that turns nothing off is taken first, be it slower', () => {
    const before = withSockets([off('M2_3', 'SATA5'), socket('M2_2', { lanes: 2 })], cabled('S'))
    expect(ask('storage.sharing', before, [flat('NEW')])).toMatchObject({
      ...{ verdict: 'fits', values: { socket: 'M2_2', portsOff: [] } },
    })
    expect(ask('storage.link', before, [flat('NEW')])?.verdict).toBe('fits slower')
    // With no drive on a cable the port is nobody's, and the fast socket is the better one.
    const alone = withSockets([off('M2_3', 'SATA5'), socket('M2_2', { lanes: 2 })])
    expect(ask('storage.link', alone, [flat('NEW')])).toMatchObject({
      verdict: 'fits',
      values: { socket: 'M2_3' },
    })
  })

  test('of two that turn ports off, the one that leaves more; ports that both name count once', () => {
    const before = withSockets([off('A', '3', '4'), off('B', '4')], cabled('S'))
    expect(ask('storage.sharing', before, [flat('NEW')])?.values).toMatchObject({
      socket: 'B',
      portsOff: ['4'],
    })
    const both = ask('storage.sharing', before, [flat('NEW'), flat('NEW-2')])
    expect(both?.values).toMatchObject({ portsLeft: 2 })
    expect([...((both?.values.portsOff as string[]) ?? [])].sort()).toEqual(['3', '4'])
  })

  test('a port that a drive of today turns off already is no news', () => {
    const sockets = [off('M2_3', 'SATA5'), socket('M2_4', { lengthsMm: [60] })]
    const before = withSockets(sockets, flat('OLD'), cabled('S'))
    const f = ask('storage.sharing', before, [flat('NEW', { lengthMm: 60 })])
    expect(f).toMatchObject({ verdict: 'fits', values: { portsOff: [], portsLeft: 3 } })
    // The new drive in place of the old one: the same socket, the same port.
    const instead = ask('storage.sharing', before, [flat('NEW')], { out: ['OLD'] })
    expect(instead).toMatchObject({ verdict: 'fits', values: { portsOff: [] } })
    // On another board nothing is old.
    expect(ask('storage.sharing', before, [otherBoard(sockets)])?.verdict).toBe('fits after work')
  })

  test('ports that nobody counted are asked for where they decide', () => {
    const having = (...parts: readonly Part[]) => withSockets([off('M2_3', '5')], ...parts)
    const not = { not: ['sataPorts'] as const }
    expect(ask('storage.sharing', having(cabled('S')), [flat('NEW')], not)).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ limit: 'sataPorts' }] },
    })
    expect(ask('storage.sharing', having(), [flat('NEW')], not)?.verdict).toBe('fits')
  })
})

describe('lanes that a socket takes from the graphics slot', () => {
  // A B550 board's manual: M.2 slots on processor lanes -> the graphics slot drops from x16 to x8.
  test.each([
    [16, 8, 'fits slower'],
    [8, 8, 'fits'],
    [9, 8, 'fits slower'],
    [4, 8, 'fits'],
    [16, 16, 'fits'],
  ])('a card of x%i where x%i are left: %s', (pcieLanes, left, gives) => {
    const before = { ...withSockets([shares('M2_2')]), card: { ...card, pcieLanes } }
    const f = ask('storage.sharing', before, [flat('NEW')], { at: { slotLanesShared: left } })
    expect(f).toMatchObject({
      verdict: gives,
      values: { usesLanes: pcieLanes, leftLanes: left, takesLanes: true },
    })
  })

  test('what the card uses today counts: a slot or processor of x8 loses nothing', () => {
    const before = withSockets([shares('M2_2')])
    for (const at of [{ slotLanes: 8 }, { processorPcieLanes: 8 }])
      expect(ask('storage.sharing', before, [flat('NEW')], { at })).toMatchObject({
        ...{ verdict: 'fits', values: { usesLanes: 8 } },
      })
  })

  test('a socket that takes none is taken first, and without a card nobody misses them', () => {
    const before = withSockets([shares('M2_2'), socket('M2_3', { lanes: 2 })])
    expect(ask('storage.sharing', before, [flat('NEW')])?.values.socket).toBe('M2_3')
    const { card: _, ...bareBuild } = withSockets([shares('M2_2')])
    expect(ask('storage.sharing', bareBuild, [flat('NEW')])?.verdict).toBe('fits')
  })

  test('what is missing is named, and only where it decides', () => {
    const before = withSockets([shares('M2_2')])
    expect(ask('storage.sharing', before, [flat('NEW')], { not: ['slotLanesShared'] })?.missing).toEqual([
      { limit: 'slotLanesShared' },
    ])
    expect(ask('storage.sharing', before, [flat('NEW')], { not: ['slotLanes'] })?.missing).toEqual([
      ...[{ limit: 'slotLanes' }, { limit: 'processorPcieLanes' }],
    ])
    const small = { ...before, card: { ...card, pcieLanes: 8 } }
    expect(ask('storage.sharing', small, [flat('NEW')], { not: ['slotLanes'] })?.verdict).toBe('fits')
    const odd = { ...before, card: { ...card, pcieLanes: undefined } }
    expect(ask('storage.sharing', odd, [flat('NEW')])?.missing).toMatchObject([{ spec: 'pcieLanes' }])
  })

  test('the card rules do not say otherwise: one fact, one home', () => {
    const before = withSockets([shares('M2_2')])
    const newCard = { ...card, id: 'CARD-NEW' }
    // Only the card changes: as the drives sit.
    expect(ask('graphics.sharing', before, [newCard], { at: { sharedM2Used: 'yes' } })?.verdict).toBe(
      'fits slower',
    )
    expect(ask('storage.sharing', before, [newCard])).toBeUndefined()
    // A drive comes in: where it is placed, whatever was seen before.
    const not = { not: ['sharedM2Used'] as const }
    for (const add of [[flat('NEW')], [flat('NEW'), newCard]]) {
      expect(ask('graphics.sharing', before, add, not)).toBeUndefined()
      expect(ask('storage.sharing', before, add, not)?.verdict).toBe('fits slower')
    }
    expect(ask('graphics.link', before, [flat('NEW'), newCard], not)?.values.linkLanes).toBe(8)
    const roomy = withSockets([shares('M2_2'), socket('M2_3')])
    expect(ask('graphics.link', roomy, [flat('NEW'), newCard], not)?.values.linkLanes).toBe(16)
    expect(ask('storage.sharing', roomy, [flat('NEW'), newCard], not)?.verdict).toBe('fits')
    // A drive on a cable takes no lanes, so nobody asks.
    expect(ask('graphics.sharing', before, [cabled('S')], not)).toBeUndefined()
    // The board says that a slot shares, and its list does not say which.
    const untold = withSockets([socket('M2_1')])
    expect(ask('graphics.sharing', untold, [flat('NEW')], not)).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ limit: 'sharedM2Used' }] },
    })
  })
})

test('silent on boards that list no sharing, and where a drive has no socket', () => {
  expect(ask('storage.sharing', withSockets([socket('M2_1')]), [flat('NEW')])).toBeUndefined()
  expect(ask('storage.sharing', withSockets([off('M2_1', '5')], flat('OLD')), [flat('NEW')])).toBeUndefined()
  expect(ask('storage.sharing', withSockets(undefined), [flat('NEW')])).toBeUndefined()
})

test('a drive nobody described counts as placed as well as it goes; unlike seats of equal worth are asked for', () => {
  const before = withSockets([socket('M2_1'), off('M2_2', '5')], bare('OLD'), cabled('S'))
  expect(ask('storage.sharing', before, [flat('NEW')])).toMatchObject({
    ...{ verdict: 'fits after work', values: { socket: 'M2_2' } },
  })
  const unlike = withSockets([shares('A'), off('B', '5')], bare('OLD'))
  expect(ask('storage.sharing', { ...unlike, card: { ...card, pcieLanes: 8 } }, [flat('NEW')])).toMatchObject(
    {
      ...{ verdict: "can't tell", missing: [{ partId: 'OLD' }, {}, {}] },
    },
  )
})
