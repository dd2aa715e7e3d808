import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { askedText, changedOf } from '../../src/core/asked/changed.ts'
import type { Part } from '../../src/core/part.ts'
import type { Question } from '../../src/core/question.ts'
import { loadAnswer } from '../../src/store/answers.ts'
import { listEdits } from '../../src/store/edits.ts'
import type { Store } from '../../src/store/open.ts'
import { loadQuestion, questionStanding } from '../../src/store/questions.ts'
import { changeOwner } from '../../src/uses/changeOwner.ts'
import {
  changeQuestion,
  editsOfQuestion,
  type QuestionChange,
  questionMark,
} from '../../src/uses/changeQuestion.ts'
import { agreeJob } from '../../src/uses/jobs/agreeJob.ts'
import { callOff } from '../../src/uses/jobs/moveJob.ts'
import { describePartInMind } from '../../src/uses/partInMind.ts'
import { callOffQuestion } from '../../src/uses/questionState.ts'
import { takeQuestion } from '../../src/uses/takeQuestion.ts'
import { viewQuestion } from '../../src/uses/views.ts'
import { prepareMessage, toldOwner } from '../../src/uses/writeMessage.ts'
import { changedQuestionOf, typedFromQuestion } from '../../src/web/changeForm.ts'
import { readingFor } from '../../src/web/frame.ts'
import { dump } from '../store/temporaryStore.ts'
import { inputs } from '../web/cannedShop.ts'
import { AT, copyOf, later, optionWith, refusals, shopFile, unwrapped } from './jobs/jobShop.ts'

let folder: string
let file: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillfits-'))
  file = await shopFile(folder)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

const changeOf = ({ id: _, machineTag: __, askedAt: ___, ...rest }: Question): QuestionChange => rest

async function withQuestion(id = 'Q-0301') {
  const { store, close } = await copyOf(file)
  const now = async (): Promise<Question> => {
    const question = await loadQuestion(store.db, id)
    if (question === undefined) throw new Error(`no ${id}`)
    return question
  }
  const change = async (changes: Partial<QuestionChange>, at: string, seen?: string) =>
    changeQuestion(store, id, { ...changeOf(await now()), ...changes }, at, seen)
  return { store, close, now, change, id }
}

describe('a question that is changed', () => {
  test('asks what it asks from now on; machine and day stay, and what it was can be read and put back', async () => {
    const { store, close, now, change, id } = await withQuestion()
    const before = await now()
    const [first] = before.wanted
    const wanted = first === undefined ? [] : [{ ...first, weight: 3 }]
    unwrapped(
      await change({ wanted, budgetMinor: 25_000, targetFps: 75, display: { refreshHz: 144 } }, later(1)),
    )
    expect(await now()).toMatchObject({
      ...{ id, machineTag: before.machineTag, askedAt: before.askedAt, words: before.words },
      ...{ wanted, budgetMinor: 25_000, targetFps: 75, display: { refreshHz: 144 } },
    })
    const edits = await editsOfQuestion(store.db, await now())
    expect(edits).toEqual([
      {
        ...{ id: '1', at: later(1), was: before },
        changed: ['wanted', 'targetFps', 'budgetMinor', 'display'],
      },
    ])
    unwrapped(await change(changeOf(edits[0]?.was ?? before), later(3)))
    expect(await now()).toEqual(before)
    expect((await editsOfQuestion(store.db, before)).map(({ changed }) => changed)).toEqual([
      ['wanted', 'targetFps', 'budgetMinor', 'display'],
      ['wanted', 'targetFps', 'budgetMinor', 'display'],
    ])
    await close()
  })

  test('leaves a kept answer as it was told, and an answered question waits for its new one', async () => {
    const { store, close, change, id } = await withQuestion()
    const { messageId } = unwrapped(await prepareMessage(store, id, undefined, AT))
    unwrapped(await toldOwner(store, messageId, AT))
    expect((await questionStanding(store.db, id))?.state).toBe('answered')
    const { earlier } = unwrapped(await viewQuestion(store, id, AT))
    const kept = await loadAnswer(store.db, earlier[0]?.answerId ?? '')
    unwrapped(await change({ targetFps: 90 }, later(1)))
    expect(await loadAnswer(store.db, earlier[0]?.answerId ?? '')).toEqual(kept)
    const view = unwrapped(await viewQuestion(store, id, later(2)))
    expect(view.state).toBe('new')
    expect(view.steps.at(-1)).toMatchObject({ from: 'answered', to: 'new', at: later(1) })
    expect(view.answer.inputs.question.targetFps).toBe(90)
    await close()
  })

  test('into the same writes nothing', async () => {
    const { store, close, change } = await withQuestion()
    const before = await dump(store)
    unwrapped(await change({}, later(1)))
    expect(await dump(store)).toEqual(before)
    await close()
  })

  test('names the part in mind anew, with its price; figures that were typed for it stand in the history', async () => {
    const { store, close } = await copyOf(file)
    const asked = {
      ...{ machineTag: 'M-0207', words: 'Does it fit?', wanted: [], display: {}, targetFps: 60, wishes: [] },
      ...{ asks: 'can I put this in' as const, partInMind: { kind: 'card' as const, words: 'some card' } },
    }
    const { id } = unwrapped(await takeQuestion(store, asked, AT))
    const figures: Part = { kind: 'card', id: 'in mind', name: 'some card', lengthMm: 298 }
    unwrapped(await describePartInMind(store, id, figures, later(1)))
    const partInMind = { kind: 'card' as const, words: 'another card', priceMinor: 9900 }
    unwrapped(await changeQuestion(store, id, { ...asked, partInMind }, later(2)))
    expect((await loadQuestion(store.db, id))?.partInMind).toEqual(partInMind)
    const was = (await listEdits(store.db, 'question', id)).map((edit) => (edit.was as Question).partInMind)
    expect(was).toMatchObject([{ words: 'some card' }, { words: 'some card', part: { lengthMm: 298 } }])
    expect(was[0]?.part).toBeUndefined()
    await close()
  })
})

describe('a question stays what it is', () => {
  const refusedWith = async (
    words: RegExp,
    prepare: (store: Store) => Promise<unknown>,
    changes: Partial<QuestionChange> = { targetFps: 90 },
    seen?: string,
  ) => {
    const { store, close, change } = await withQuestion()
    await prepare(store)
    const before = await dump(store)
    expect(refusals(await change(changes, later(9), seen)).join()).toMatch(words)
    expect(await dump(store)).toEqual(before)
    await close()
  }
  test('while it is called off', () =>
    refusedWith(/Take it up again/, (store) => callOffQuestion(store, 'Q-0301', undefined, AT)))
  test('when the machine is another’s', () =>
    refusedWith(/sold on/, (store) => changeOwner(store, 'M-0207', { ownerName: 'Petra Quill' }, later(1))))
  test('when what was asked needs a title and has none', () =>
    refusedWith(/at least one title/, async () => undefined, { wanted: [] }))
  test('when a title or setting is not known here', () =>
    refusedWith(/not known here/, async () => undefined, {
      wanted: [{ titleId: 'no-such', settingId: '1080-high', weight: 1 }],
    }))
  test('when somebody changed it in another window', () =>
    refusedWith(/another window/, async () => undefined, undefined, 'an older mark'))

  test('once it is agreed, until the job is called off', async () => {
    const { store, close, change, id } = await withQuestion()
    const option = await optionWith(store, 'Q-0301', ['S-601'])
    const { jobId } = unwrapped(await agreeJob(store, id, option.id, { fittedBy: 'shop' }, AT))
    const before = await dump(store)
    expect(refusals(await change({ targetFps: 90 }, later(1))).join()).toMatch(/agreed as J-0001/)
    expect(await dump(store)).toEqual(before)
    unwrapped(await callOff(store, jobId, undefined, later(2)))
    unwrapped(await change({ targetFps: 90 }, later(3)))
    await close()
  })
})

describe('the form of a change', () => {
  const reading = readingFor(inputs.shop)
  const whole: Question = {
    ...inputs.question,
    ...{ asks: 'can I put this in', cameBy: 'chat', budgetMinor: 15_050, wishes: ['no used parts'] },
    ...{ display: { widthPx: 1920, heightPx: 1080, refreshHz: 59.94 }, plannedDisplay: { refreshHz: 144 } },
    partInMind: {
      ...{ kind: 'card', words: 'some card', priceMinor: 9900, model: 'exact' },
      part: { kind: 'card', id: 'in mind', name: 'some card', lengthMm: 298, memoryGB: 8 },
    },
  }

  test('that is sent as it was drawn changes nothing, figures that it does not show included', () => {
    const read = changedQuestionOf(whole, typedFromQuestion(whole, 2), reading)
    expect(changedOf(whole, unwrapped(read))).toEqual([])
    expect(unwrapped(read).partInMind?.part).toMatchObject({ lengthMm: 298, memoryGB: 8 })
  })

  test('with a title taken out leaves the others', () => {
    const typed = new Map([...typedFromQuestion(whole, 2), ['wanted.0.title', ['']]])
    const read = unwrapped(changedQuestionOf(whole, typed, reading))
    expect(read.wanted).toEqual(whole.wanted.slice(1))
  })

  test('of a part under another name drops figures that nobody sees there', () => {
    const typed = new Map([...typedFromQuestion(whole, 2), ['partWords', ['another card']]])
    const read = unwrapped(changedQuestionOf(whole, typed, reading))
    expect(read.partInMind?.part).toMatchObject({ name: 'another card', lengthMm: 298 })
    expect(read.partInMind?.part).not.toHaveProperty('memoryGB')
  })
})

test('law: the mark differs where something that is asked differs, and nowhere else', () => {
  const some = fc.record({
    words: fc.constantFrom('a', 'b'),
    targetFps: fc.constantFrom(60, 90),
    budgetMinor: fc.constantFrom(undefined, 0, 100),
    wishes: fc.subarray(['keep the case', 'no used parts'] as const),
    display: fc.constantFrom({}, { refreshHz: 60 }, { refreshHz: undefined }, { widthPx: 1, heightPx: 2 }),
    asks: fc.constantFrom(undefined, 'what can I do' as const, 'will it run this' as const),
  })
  fc.assert(
    fc.property(some, some, (a, b) => {
      const [one, two] = [
        { ...inputs.question, ...a },
        { ...inputs.question, ...b },
      ]
      const isSame = changedOf(one, two).length === 0
      return (
        isSame === (askedText(one) === askedText(two)) && isSame === (questionMark(one) === questionMark(two))
      )
    }),
  )
})
