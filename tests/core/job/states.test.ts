import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { freeQuantity, type Reservation } from '../../../src/core/job/job.ts'
import {
  isOver,
  JOB_STATES,
  JOB_STEPS,
  type JobState,
  jobAfter,
  jobStepsFrom,
  QUESTION_STATES,
  QUESTION_STEPS,
  questionAfter,
  STOCK_EFFECTS,
  shownState,
} from '../../../src/core/job/states.ts'

// The states and the order between them are the shop's own (product words); what is tested are laws of any such order.

describe('a job', () => {
  test.each([
    ['agreed', 'book', 'booked'],
    ['agreed', 'start', 'on the bench'],
    ['booked', 'missed', 'agreed'],
    ['booked', 'book', 'booked'],
    ['on the bench', 'finish', 'done'],
    ['on the bench', 'put off', 'agreed'],
    ['agreed', 'finish', undefined],
    ['booked', 'finish', undefined],
    ['done', 'call off', undefined],
    ['called off', 'book', undefined],
  ] as const)('%s, %s: %s', (from, step, to) => expect(jobAfter(from, step)).toBe(to))

  test('law: every state can be reached, and each but the last two can be called off', () => {
    const reached = new Set<JobState>(['agreed'])
    for (const _ of JOB_STATES)
      for (const state of [...reached])
        for (const step of jobStepsFrom(state)) reached.add(jobAfter(state, step) ?? state)
    expect([...reached].sort()).toEqual([...JOB_STATES].sort())
    const stuck = JOB_STATES.filter((state) => jobAfter(state, 'call off') === undefined)
    expect(stuck).toEqual(['done', 'called off'])
    expect(JOB_STATES.filter(isOver)).toEqual(['done', 'called off'])
  })

  test('law: nothing is put aside twice, and an ended job holds nothing, whatever steps are taken', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...JOB_STEPS), { maxLength: 30 }), (steps) => {
        let state: JobState = 'agreed'
        let held = 1
        let used = 0
        for (const step of steps) {
          const next = jobAfter(state, step)
          if (next === undefined) continue
          state = next
          const effect = STOCK_EFFECTS[step]
          if (effect === 'release') held = 0
          if (effect === 'hold') held = 1
          if (effect === 'use') [held, used] = [0, used + 1]
        }
        expect(used).toBe(state === 'done' ? 1 : 0)
        if (isOver(state)) expect(held).toBe(0)
      }),
    )
  })
})

describe('a question', () => {
  test.each([
    ['new', 'asked back', 'waiting for the owner'],
    ['waiting for the owner', 'heard', 'new'],
    ['waiting for the owner', 'answered', 'answered'],
    ['answered', 'asked back', 'waiting for the owner'],
    ['called off', 'taken up again', 'new'],
    ['called off', 'answered', undefined],
    ['new', 'heard', undefined],
  ] as const)('%s, %s: %s', (from, step, to) => expect(questionAfter(from, step)).toBe(to))

  test('law: from every state there is a way to an answer', () => {
    for (const from of QUESTION_STATES) {
      const reached = new Set([from])
      for (const _ of QUESTION_STATES)
        for (const state of [...reached])
          for (const step of QUESTION_STEPS) reached.add(questionAfter(state, step) ?? state)
      expect(reached.has('answered'), from).toBe(true)
    }
  })

  test('it shows the state of its job once there is one', () => {
    expect(shownState('answered', undefined)).toBe('answered')
    expect(shownState('answered', 'booked')).toBe('booked')
  })
})

describe('what is free on the shelf', () => {
  const at = '2026-03-04T12:00:00.000Z'
  const open = (quantity: number): Reservation => ({ itemId: 'I', quantity, reservedAt: at })

  test.each([
    ['nothing put aside', 3, [], 3],
    ['one put aside', 3, [open(1)], 2],
    ['all put aside', 1, [open(1)], 0],
    ['released again', 1, [{ ...open(1), releasedAt: at }], 1],
    ['built in: it has left the quantity already', 0, [{ ...open(1), usedAt: at }], 0],
    ['counted down by hand below what is put aside', 1, [open(1), open(1)], 0],
  ] as const)('%s', (_, quantity, reservations, free) => {
    expect(freeQuantity(quantity, reservations)).toBe(free)
  })
})
