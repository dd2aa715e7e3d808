import { describe, expect, test } from 'vitest'
import type { M2Key, M2SocketKey } from '../../../src/core/part.ts'
import { board, card, machine } from './bench.ts'
import { ask, bare, cabled, flat, otherBoard, socket, withSockets } from './storageBench.ts'

describe('storage.m2', () => {
  // PCI-SIG M.2 Specification, mechanical keys: a B+M drive passes either ridge; E is for wireless cards.
  test.each<[M2Key, M2SocketKey, string]>([
    ['M', 'M', 'fits'],
    ['M', 'B', 'does not fit'],
    ['M', 'E', 'does not fit'],
    ['B', 'B', 'fits'],
    ['B', 'M', 'does not fit'],
    ['B', 'E', 'does not fit'],
    ['B+M', 'M', 'fits'],
    ['B+M', 'B', 'fits'],
    ['B+M', 'E', 'does not fit'],
  ])('a drive of key %s in a socket of key %s: %s', (m2Key, key, gives) => {
    const f = ask('storage.m2', withSockets([socket('M2_1', { key })]), [flat('NEW', { m2Key })])
    expect(f).toMatchObject({ verdict: gives, partId: 'NEW' })
    if (gives !== 'fits') expect(f?.values.obstacle).toBe(key === 'E' ? 'no socket' : 'key')
  })

  // PCI-SIG M.2 Specification, module sizes: 30, 42, 60, 80, 110 mm; a socket has a screw at some of them.
  test.each([
    [60, 'does not fit'],
    [79, 'does not fit'],
    [80, 'fits'],
    [81, 'does not fit'],
    [110, 'fits'],
  ])('a drive of %i mm where the screws are at 80 and 110 mm: %s', (lengthMm, gives) => {
    const f = ask('storage.m2', withSockets([socket('M2_1', { lengthsMm: [80, 110] })]), [
      flat('NEW', { lengthMm }),
    ])
    expect(f?.verdict).toBe(gives)
    if (gives !== 'fits') expect(f?.values.obstacle).toBe('length')
  })

  // Board manuals: a socket wired for PCIe only does not see a SATA drive, and the reverse; the key does not tell.
  const sataOnly = { pcieGen: undefined, lanes: undefined, sata: true }
  test.each([
    ['SATA', { sata: false }, 'does not fit'],
    ['SATA', { sata: true }, 'fits'],
    ['SATA', sataOnly, 'fits'],
    ['PCIe', sataOnly, 'does not fit'],
    ['PCIe', { sata: true }, 'fits'],
  ] as const)('a %s drive in a socket wired %o: %s', (speaks, wired, gives) => {
    const f = ask('storage.m2', withSockets([socket('M2_1', wired)]), [flat('NEW', { interface: speaks })])
    expect(f?.verdict).toBe(gives)
    if (gives !== 'fits') expect(f?.values.obstacle).toBe('interface')
  })

  test('each drive of the machine holds a socket; the answer says which one is free', () => {
    const two = [socket('M2_1'), socket('M2_2')]
    const f = ask('storage.m2', withSockets(two, flat('OLD')), [flat('NEW')])
    expect(f).toMatchObject({ verdict: 'fits', values: { socket: 'M2_2' } })
    expect(f?.values.placing).toEqual(['Drive NEW: M2_2', 'Drive OLD: M2_1'])
    const full = ask('storage.m2', withSockets(two, flat('OLD'), flat('OLD-2')), [flat('NEW')])
    expect(full).toMatchObject({ verdict: 'does not fit', partId: 'NEW', values: { obstacle: 'taken' } })
    const instead = ask('storage.m2', withSockets([socket('M2_1')], flat('OLD')), [flat('NEW')], {
      out: ['OLD'],
    })
    expect(instead).toMatchObject({ verdict: 'fits', values: { socket: 'M2_1' } })
  })

  test('an old drive makes room where another socket suits it', () => {
    // Only M2_1 is wired for PCIe; the old SATA drive suits both.
    const wired = [
      socket('M2_1', { sata: true }),
      socket('M2_2', { sata: true, pcieGen: undefined, lanes: undefined }),
    ]
    const f = ask('storage.m2', withSockets(wired, flat('OLD', { interface: 'SATA' })), [flat('NEW')])
    expect(f).toMatchObject({ verdict: 'fits', values: { socket: 'M2_1' } })
    expect(f?.values.placing).toEqual(['Drive NEW: M2_1', 'Drive OLD: M2_2'])
  })

  test('a drive of today that nobody described: sure where every seat of it leaves one, else asked for', () => {
    const two = [socket('M2_1'), socket('M2_2')]
    expect(ask('storage.m2', withSockets(two, bare('OLD')), [flat('NEW')])?.verdict).toBe('fits')
    const one = [socket('M2_1')]
    expect(ask('storage.m2', withSockets(one, bare('OLD')), [flat('NEW')])?.verdict).toBe('does not fit')
    const wired = [
      socket('M2_1', { sata: true }),
      socket('M2_2', { sata: true, pcieGen: undefined, lanes: undefined }),
    ]
    const f = ask('storage.m2', withSockets(wired, bare('OLD')), [flat('NEW')])
    expect(f?.verdict).toBe("can't tell")
    expect(f?.missing).toEqual([
      { spec: 'm2Key', partId: 'OLD', partName: 'Drive OLD' },
      { spec: 'lengthMm', partId: 'OLD', partName: 'Drive OLD' },
      { spec: 'interface', partId: 'OLD', partName: 'Drive OLD' },
    ])
    // On another board it has to be placed, so its figures are needed.
    expect(ask('storage.m2', withSockets(two, bare('OLD')), [otherBoard(two)])?.verdict).toBe("can't tell")
  })

  test('a list that nobody gave, an empty one, and figures of the new drive', () => {
    expect(ask('storage.m2', withSockets(undefined), [flat('NEW')])).toMatchObject({
      ...{ verdict: "can't tell", missing: [{ spec: 'm2Sockets', partId: board.id, partName: board.name }] },
    })
    expect(ask('storage.m2', withSockets([]), [flat('NEW')])).toMatchObject({
      ...{ verdict: 'does not fit', values: { obstacle: 'no socket' } },
    })
    for (const name of ['m2Key', 'lengthMm', 'interface'] as const)
      expect(
        ask('storage.m2', withSockets([socket('M2_1')]), [flat('NEW', { [name]: undefined })]),
      ).toMatchObject({
        ...{ verdict: "can't tell", missing: [{ spec: name, partId: 'NEW' }] },
      })
    const formless = { ...flat('NEW'), form: undefined }
    expect(ask('storage.m2', withSockets([socket('M2_1')]), [formless])?.missing).toMatchObject([
      { spec: 'form' },
    ])
    const odd = [socket('M2_1', { lanes: Number.NaN })]
    expect(ask('storage.m2', withSockets(odd), [flat('NEW')])?.missing).toMatchObject([{ spec: 'm2Sockets' }])
  })

  test('silent where no M.2 drive comes in, and on a board that stays', () => {
    const before = withSockets([socket('M2_1')], flat('OLD'))
    expect(ask('storage.m2', before, [cabled('NEW')])).toBeUndefined()
    expect(ask('storage.m2', before, [{ ...card, id: 'CARD-NEW' }])).toBeUndefined()
    expect(ask('storage.m2', before, [], { out: ['OLD'] })).toBeUndefined()
    expect(ask('storage.m2', machine, [otherBoard([])])).toBeUndefined()
    expect(ask('storage.m2', before, [otherBoard([socket('M2_9')])])?.values.socket).toBe('M2_9')
    expect(ask('storage.m2', before, [otherBoard([])])?.verdict).toBe('does not fit')
  })

  test('a second drive of the very same record is a drive of its own', () => {
    const same = flat('SAME')
    expect(ask('storage.m2', withSockets([socket('M2_1')], same), [same])?.verdict).toBe('does not fit')
    expect(ask('storage.m2', withSockets([socket('M2_1'), socket('M2_2')], same), [same])?.verdict).toBe(
      'fits',
    )
  })

  test('a drive that takes over the system brings the caution to copy the files first', () => {
    const before = withSockets([socket('M2_1'), socket('M2_2')], flat('OLD'))
    expect(ask('storage.m2', before, [flat('NEW')])?.cautions).toEqual(['esd'])
    for (const more of [{ out: ['OLD'] }, { work: ['drive cloned'] }, { work: ['reinstall'] }])
      expect(ask('storage.m2', before, [flat('NEW')], more)?.cautions).toEqual(['esd', 'backup'])
  })
})

describe('storage.link', () => {
  // PCI Express Base Specification: gen 3 x4 = 3.938 GB/s, gen 3 x2 = 1.969, gen 4 x4 = 7.877, gen 4 x2 = 3.938.
  test.each([
    { gen: 3, lanes: 4, inGen: 3, inLanes: 4, own: 3.938, link: 3.938, gives: 'fits' },
    { gen: 3, lanes: 4, inGen: 4, inLanes: 4, own: 3.938, link: 3.938, gives: 'fits' },
    { gen: 3, lanes: 4, inGen: 3, inLanes: 2, own: 3.938, link: 1.969, gives: 'fits slower' },
    { gen: 4, lanes: 4, inGen: 3, inLanes: 4, own: 7.877, link: 3.938, gives: 'fits slower' },
    { gen: 4, lanes: 4, inGen: 4, inLanes: 4, own: 7.877, link: 7.877, gives: 'fits' },
    { gen: 4, lanes: 4, inGen: 3, inLanes: 2, own: 7.877, link: 1.969, gives: 'fits slower' },
    { gen: 3, lanes: 2, inGen: 3, inLanes: 4, own: 1.969, link: 1.969, gives: 'fits' },
    // The lower of both on each side: gen 4 x2 in gen 3 x4 runs at gen 3 x2.
    { gen: 4, lanes: 2, inGen: 3, inLanes: 4, own: 3.938, link: 1.969, gives: 'fits slower' },
  ])(
    'gen $gen x$lanes in gen $inGen x$inLanes: $link of $own GB/s, $gives',
    ({ gives, own, link, ...of }) => {
      const before = withSockets([socket('M2_1', { pcieGen: of.inGen, lanes: of.inLanes })])
      const f = ask('storage.link', before, [flat('NEW', { pcieGen: of.gen, pcieLanes: of.lanes })])
      expect(f).toMatchObject({ verdict: gives, partId: 'NEW', values: { socket: 'M2_1' } })
      expect(f?.values.driveGBps).toBeCloseTo(own, 3)
      expect(f?.values.linkGBps).toBeCloseTo(link, 3)
      expect(f?.values.lostGBps).toBeCloseTo(own - link, 2)
    },
  )

  // Serial ATA, 6 Gb/s at 8b/10b: 600 MB/s.
  test('a SATA drive loses nothing in a SATA socket', () => {
    const before = withSockets([socket('M2_1', { sata: true })])
    const f = ask('storage.link', before, [flat('NEW', { interface: 'SATA' })])
    expect(f).toMatchObject({ verdict: 'fits', values: { driveGBps: 0.6, linkGBps: 0.6, driveGen: 'SATA' } })
  })

  test('the faster of two free sockets is taken, wherever it stands in the list', () => {
    for (const sockets of [
      [socket('SLOW', { lanes: 2 }), socket('FAST')],
      [socket('FAST'), socket('SLOW', { lanes: 2 })],
    ]) {
      const f = ask('storage.link', withSockets(sockets), [flat('NEW')])
      expect(f).toMatchObject({ verdict: 'fits', values: { socket: 'FAST' } })
    }
  })

  test('the fast socket goes to the drive that can use it, and neither loses', () => {
    const sockets = [socket('M2_1', { pcieGen: 4 }), socket('M2_2')]
    const f = ask('storage.link', withSockets(sockets, flat('OLD')), [flat('NEW', { pcieGen: 4 })])
    expect(f).toMatchObject({ verdict: 'fits', values: { socket: 'M2_1' } })
  })

  test('a drive of today that was slower before does not spoil the change; one that gets slower does', () => {
    // OLD runs at gen 3 x2 today already, because its length fits there only.
    const apart = [socket('M2_1', { lengthsMm: [60], lanes: 2 }), socket('M2_2')]
    const old = flat('OLD', { lengthMm: 60 })
    expect(ask('storage.link', withSockets(apart, old), [flat('NEW')])?.verdict).toBe('fits')
    // Both want the only full socket: whoever gets it, one of them is slower.
    const one = [socket('M2_1'), socket('M2_2', { lanes: 2 })]
    const f = ask('storage.link', withSockets(one, flat('OLD')), [flat('NEW')])
    expect(f?.verdict).toBe('fits slower')
    expect(f?.values.linkGBps).toBeCloseTo(1.969, 3)
  })

  test('on another board all drives are judged, each against what it could use', () => {
    const before = withSockets([socket('M2_1'), socket('M2_2')], flat('A'), flat('B', { pcieGen: 4 }))
    const f = ask('storage.link', before, [
      otherBoard([socket('N1', { pcieGen: 4 }), socket('N2', { lanes: 2 })]),
    ])
    expect(f).toMatchObject({ verdict: 'fits slower', values: { drive: 'Drive A', socket: 'N2' } })
    expect(f?.values.linkGBps).toBeCloseTo(1.969, 3)
  })

  test('what is not known is asked for; where there is no socket it is silent', () => {
    const before = withSockets([socket('M2_1')])
    for (const name of ['pcieGen', 'pcieLanes'] as const)
      expect(ask('storage.link', before, [flat('NEW', { [name]: undefined })])).toMatchObject({
        ...{ verdict: "can't tell", missing: [{ spec: name, partId: 'NEW' }] },
      })
    expect(
      ask('storage.link', withSockets([socket('M2_1', { pcieGen: undefined })]), [flat('NEW')]),
    ).toMatchObject({
      verdict: "can't tell",
    })
    expect(ask('storage.link', withSockets([]), [flat('NEW')])).toBeUndefined()
    expect(ask('storage.link', withSockets(undefined), [flat('NEW')])).toBeUndefined()
    // The old drive sits in one of two unlike sockets, nobody knows which.
    const unlike = [socket('M2_1'), socket('M2_2', { lanes: 2 })]
    const f = ask('storage.link', withSockets(unlike, bare('OLD')), [flat('NEW')])
    expect(f).toMatchObject({ verdict: "can't tell", missing: [{ partId: 'OLD' }, {}, {}] })
  })
})
