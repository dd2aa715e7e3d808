import { expect, test } from 'vitest'
import { RULES } from '../../src/core/fit/rules.ts'
import { SECOND_TABLE, TAKEN_OUT } from './secondTable.ts'

test('what the type asks of a second table is what the rules can say: every verdict of every rule, and no more', () => {
  expect(Object.keys(SECOND_TABLE).sort()).toEqual(RULES.map(({ id }) => id).sort())
  for (const rule of RULES) {
    const sentences = Object.keys(SECOND_TABLE[rule.id]).sort()
    expect(sentences, rule.id).toEqual([...rule.verdicts, "can't tell"].sort())
  }
})

test('what the type refuses to miss is there', () => {
  expect(Object.values(TAKEN_OUT).filter((taken) => taken === undefined)).toEqual([])
})
