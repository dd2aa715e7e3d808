import { expect, test } from 'vitest'
import { onlyNamed } from '../../src/web/frameLogNames.ts'

const NAMES = ['M-0207', 'M-02', 'T-7', 'Saffron Relay', 'Tern']
const named = (...files: string[]) => onlyNamed(NAMES, files, (name) => [name])

test.each([
  ['M-0207 1080.csv', 'M-0207'],
  ['evening_m0207.csv', 'M-0207'],
  ['saffron_relay-1.csv', 'Saffron Relay'],
  ['SaffronRelay.csv', 'Saffron Relay'],
  ['M-02.csv', 'M-02'],
  ['T-7 evening.csv', 'T-7'],
  // Part of a longer word or number, two names at once, none.
  ['western.csv', undefined],
  ['M-02071.csv', undefined],
  ['tern saffron relay.csv', undefined],
  ['evening.csv', undefined],
])('%s is named after %s', (file, name) => {
  expect(named(file)).toBe(name)
})

test('several files are named after what all of them hold', () => {
  expect(named('tern 1 M-0207.csv', 'tern 2.csv')).toBe('Tern')
  expect(named('tern 1.csv', 'saffron relay 2.csv')).toBe(undefined)
})
