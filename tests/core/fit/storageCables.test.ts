import { describe, expect, test } from 'vitest'
import { buildOf, partsOf } from '../../../src/core/build.ts'
import type { LimitKey } from '../../../src/core/limits/limit.ts'
import type { Part } from '../../../src/core/part.ts'
import { card, machine, supply, tower } from './bench.ts'
import { ask, bare, cabled, flat, otherBoard, socket, withSockets } from './storageBench.ts'

const plain = (...parts: readonly Part[]) => buildOf([...partsOf(machine), ...parts])
const small = (n: number) => Array.from({ length: n }, (_, i) => cabled(`SMALL-${i}`))
const large = (n: number) => Array.from({ length: n }, (_, i) => cabled(`LARGE-${i}`, '3.5-inch'))

describe('storage.ports', () => {
  // Counting (common practice): one port a drive.
  test.each([
    [0, 1, 'fits'],
    [2, 3, 'fits'],
    [2, 2, 'does not fit'],
    [0, 0, 'does not fit'],
  ])('%i drives there and one more on %i ports: %s', (there, sataPorts, gives) => {
    const f = ask('storage.ports', plain(...small(there)), [cabled('NEW')], { at: { sataPorts } })
    expect(f).toMatchObject({
      verdict: gives,
      partId: 'NEW',
      values: { sataDrives: there + 1, ports: sataPorts },
    })
  })

  // A B550 board's manual: SATA 5 and 6 are off while M.2 slot 3 holds a drive.
  test.each([
    [3, 'fits'],
    [4, 'does not fit'],
  ])('six ports, two of them off beside an M.2 drive, %i drives there and one more: %s', (there, gives) => {
    const sockets = [socket('M2_3', { sataPortsOff: ['SATA5', 'SATA6'] })]
    const before = withSockets(sockets, flat('OLD'), ...small(there))
    const f = ask('storage.ports', before, [cabled('NEW')], { at: { sataPorts: 6 } })
    expect(f).toMatchObject({ verdict: gives, values: { offMost: 2 } })
  })

  test('an M.2 drive takes no port, and a drive of unknown interface counts as one on SATA', () => {
    const before = withSockets([socket('M2_1', { sata: true })], flat('OLD', { interface: 'SATA' }))
    const at = { at: { sataPorts: 1 } }
    expect(ask('storage.ports', before, [cabled('NEW')], at)?.verdict).toBe('fits')
    expect(ask('storage.ports', before, [flat('NEW')], at)).toBeUndefined()
    const untold = { ...cabled('NEW'), interface: undefined }
    expect(ask('storage.ports', plain(...small(1)), [untold], at)?.verdict).toBe('does not fit')
  })

  test('not known: ports, the list beside M.2 drives, the seat of a drive nobody described', () => {
    expect(ask('storage.ports', plain(), [cabled('NEW')], { not: ['sataPorts'] })?.missing).toEqual([
      { limit: 'sataPorts' },
    ])
    expect(ask('storage.ports', withSockets(undefined, flat('OLD')), [cabled('NEW')])?.missing).toMatchObject(
      [{ spec: 'm2Sockets' }],
    )
    expect(ask('storage.ports', withSockets(undefined), [cabled('NEW')])?.verdict).toBe('fits')
    const sockets = [socket('A', { sataPortsOff: ['1'] }), socket('B', { sataPortsOff: ['1', '2'] })]
    const f = ask('storage.ports', withSockets(sockets, bare('OLD')), [cabled('NEW')], {
      at: { sataPorts: 2 },
    })
    expect(f).toMatchObject({ verdict: "can't tell", missing: [{ partId: 'OLD' }, {}, {}] })
    const noPort = ask('storage.ports', plain(), [{ ...cabled('NEW'), interface: 'PCIe' }])
    expect(noPort).toMatchObject({ verdict: "can't tell", missing: [{ spec: 'interface', partId: 'NEW' }] })
  })

  test('another board must have ports for what stays; a new case or card asks for none', () => {
    const before = plain(...small(2))
    expect(ask('storage.ports', before, [otherBoard([])], { at: { sataPorts: 1 } })?.verdict).toBe(
      'does not fit',
    )
    expect(ask('storage.ports', before, [{ ...tower, id: 'CASE-NEW' }])).toBeUndefined()
    expect(ask('storage.ports', before, [], { out: ['SMALL-0'] })).toBeUndefined()
  })
})

describe('storage.power', () => {
  test.each([
    [1, 2, 'fits'],
    [2, 2, 'fits after work'],
    [0, 0, 'fits after work'],
  ])('%i drives there and one more on %i plugs: %s', (there, sataPlugs, gives) => {
    const f = ask('storage.power', plain(...small(there), flat('M2')), [cabled('NEW')], { at: { sataPlugs } })
    expect(f).toMatchObject({ verdict: gives, values: { plugDrives: there + 1, sataPlugs } })
    expect(f?.needs).toEqual(gives === 'fits' ? [] : [{ part: 'supply' }])
  })

  test('a new supply must feed the drives that stay; unknown plugs are asked for', () => {
    const other = { ...supply, id: 'PSU-NEW' }
    expect(ask('storage.power', plain(...small(2)), [other], { at: { sataPlugs: 2 } })?.verdict).toBe('fits')
    expect(ask('storage.power', plain(...small(2)), [other], { not: ['sataPlugs'] })).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ limit: 'sataPlugs' }] },
    })
    expect(ask('storage.power', plain(flat('M2')), [other], { not: ['sataPlugs'] })).toBeUndefined()
    expect(ask('storage.power', plain(...small(2)), [{ ...card, id: 'CARD-NEW' }])).toBeUndefined()
  })
})

describe('storage.bays', () => {
  // SFF-8201 and SFF-8301: a 2.5-inch drive is smaller in every direction; brackets are common practice.
  test.each([
    { there: [...small(1)], add: 'small', bays25: 2, bays35: 0, gives: 'fits' },
    { there: [...small(2)], add: 'small', bays25: 2, bays35: 1, gives: 'fits after work' },
    { there: [...small(2)], add: 'small', bays25: 2, bays35: 0, gives: 'does not fit' },
    { there: [...small(2), ...large(1)], add: 'small', bays25: 2, bays35: 1, gives: 'does not fit' },
    { there: [...small(2), ...large(1)], add: 'small', bays25: 2, bays35: 2, gives: 'fits after work' },
    { there: [...large(1)], add: 'large', bays25: 5, bays35: 2, gives: 'fits' },
    { there: [...large(2)], add: 'large', bays25: 5, bays35: 2, gives: 'does not fit' },
    { there: [], add: 'small', bays25: 0, bays35: 0, gives: 'does not fit' },
    // One small drive sits in a large bay already: the last large bay is for the large drive, and no bracket is new.
    { there: [...small(1)], add: 'large', bays25: 0, bays35: 2, gives: 'fits' },
    { there: [...small(1)], add: 'large', bays25: 0, bays35: 1, gives: 'does not fit' },
    { there: [...small(1)], add: 'small', bays25: 0, bays35: 2, gives: 'fits after work' },
  ] as const)('$there.length there, one $add more, $bays25 small and $bays35 large bays: $gives', (c) => {
    const next = cabled('NEW', c.add === 'small' ? '2.5-inch' : '3.5-inch')
    const f = ask('storage.bays', plain(...c.there), [next], { at: { bays25: c.bays25, bays35: c.bays35 } })
    expect(f?.verdict).toBe(c.gives)
    expect(f?.needs).toEqual(c.gives === 'fits after work' ? [{ work: 'fit bracket' }] : [])
  })

  // Only what decides is asked for.
  test.each<[form: '2.5-inch' | '3.5-inch', at: object, not: LimitKey[], asks: LimitKey[] | string]>([
    ['3.5-inch', { bays35: 1 }, ['bays25'], 'fits'],
    ['3.5-inch', {}, ['bays35'], ['bays35']],
    ['3.5-inch', {}, ['bays25', 'bays35'], ['bays35']],
    ['2.5-inch', { bays25: 1 }, ['bays35'], 'fits'],
    ['2.5-inch', { bays25: 0 }, ['bays35'], ['bays35']],
    ['2.5-inch', { bays35: 1 }, ['bays25'], ['bays25']],
    ['2.5-inch', {}, ['bays25', 'bays35'], ['bays25', 'bays35']],
  ])('a first %s drive with %o and %s unknown: %s', (form, at, not, asks) => {
    const f = ask('storage.bays', plain(), [cabled('NEW', form)], { at, not })
    if (typeof asks === 'string') expect(f?.verdict).toBe(asks)
    else expect(f).toMatchObject({ verdict: "can't tell", missing: asks.map((limit) => ({ limit })) })
  })

  test('another case takes all drives; M.2 drives need no bay', () => {
    const other = { ...tower, id: 'CASE-NEW' }
    const at = { at: { bays25: 1, bays35: 0 } }
    expect(ask('storage.bays', plain(...small(1), flat('M2')), [other], at)?.verdict).toBe('fits')
    expect(ask('storage.bays', plain(...small(2)), [other], at)?.verdict).toBe('does not fit')
    expect(ask('storage.bays', plain(flat('M2')), [other], at)).toBeUndefined()
    expect(ask('storage.bays', plain(...small(2)), [otherBoard([])], at)).toBeUndefined()
  })
})

test('a drive of unknown form is asked for its form', () => {
  const formless = { ...cabled('NEW'), form: undefined }
  expect(ask('storage.m2', plain(), [formless])?.missing).toMatchObject([{ spec: 'form', partId: 'NEW' }, {}])
})
