import { failed } from '../../problem.ts'
import type { WebUses } from '../webUses.ts'

type Named = { readonly customerName?: string | undefined }

const withoutName = <T extends Named>(line: T): T => ({ ...line, customerName: undefined })

/** Every list of lines in a view, without names; all else as it is. */
const withoutNames = <T extends object>(view: T): T =>
  Object.fromEntries(
    Object.entries(view).map(([list, lines]) => [
      list,
      Array.isArray(lines) ? lines.map((line: Named) => withoutName(line)) : lines,
    ]),
  ) as T

/**
 * What a key is answered from that may not know people: no name and no address of anybody, and no way to find out
 * whether somebody is there. What owners asked and what the shop noted stays as it was written.
 */
export const withoutPeople = (uses: WebUses): WebUses => ({
  ...uses,
  machines: async (search) => {
    const { lines, total } = await uses.machines({ ...search, withoutPeople: true })
    return { lines: lines.map((line) => ({ ...line, ownerName: undefined })), total }
  },
  questionList: async (search) => withoutNames(await uses.questionList({ ...search, query: '' })),
  machine: async (tag) => {
    const found = await uses.machine(tag)
    return found.ok ? { ok: true, value: { ...found.value, owner: undefined } } : found
  },
  questions: async () => withoutNames(await uses.questions()),
  questionView: async (id) => {
    const found = await uses.questionView(id)
    if (!found.ok) return found
    const { answer } = found.value
    const inputs = { ...answer.inputs, customer: undefined }
    return { ok: true, value: { ...found.value, answer: { ...answer, inputs } } }
  },
  takeQuestion: async (question) => {
    const found = await uses.machine(question.machineTag)
    if (found.ok) return uses.takeQuestion(question)
    const next = 'No machine has this tag. A key that may not know people gives the tag.'
    return failed({ code: 'not found', field: 'machineTag', got: question.machineTag, next })
  },
  round: async (id) => {
    const found = await uses.round(id)
    if (!found.ok) return found
    const seats = found.value.seats.map((seat) => ({ ...seat, name: undefined }))
    return { ok: true, value: { ...found.value, seats } }
  },
  jobs: async () => withoutNames(await uses.jobs()),
  saleRecords: async () => (await uses.saleRecords()).map((line) => ({ ...line, ownerName: undefined })),
})
