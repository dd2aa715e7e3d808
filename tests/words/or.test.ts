import { expect, test } from 'vitest'
import { FINDING_WORDS } from '../../src/words/en/findings.ts'
import { howMany, or } from '../../src/words/en/or.ts'

test('a figure that is not there, and a list with nothing in it, leave a true sentence', () => {
  expect([or('3', 'none'), or('', 'none'), or(undefined, 'none')]).toEqual(['3', 'none', 'none'])
})

test('one is one', () => {
  expect([howMany('1', 'cable'), howMany('2', 'cable'), howMany('0', 'cable')]).toEqual([
    '1 cable',
    '2 cables',
    '0 cables',
  ])
})

test('builder’s lines: one cable for two sockets, and no port that goes off', () => {
  const cables = FINDING_WORDS['power.cables'].fits
  const values = { sockets: '2', cardCables: '1', needW: '200 W', cablesW: '300 W' }
  expect(cables(values as never, {} as never).builder).toContain('2 sockets on 1 cable:')
  const sharing = FINDING_WORDS['storage.sharing'].fits
  const shared = {
    socket: 'M2_1',
    portsOff: '',
    sataDrives: '1',
    takesLanes: 'no',
    leftLanes: '16',
    usesLanes: '16',
  }
  expect(sharing(shared as never, {} as never).builder).toContain('ports off none with 1 SATA drive;')
})
