import { z } from '@hono/zod-openapi'
import { type Answer, toldRanking } from '../../../core/answer.ts'
import { CHANGEABLE } from '../../../core/asked/changed.ts'
import { QUESTION_STATES } from '../../../core/job/states.ts'
import {
  ASKS,
  CHANNELS,
  COMPLAINTS,
  type Question,
  TARGET_FPS_DEFAULT,
  WISHES,
} from '../../../core/question.ts'
import { line, lines, number, whole } from '../../../input/cells.ts'
import { spaceGB } from '../../../input/tables/questions.ts'
import { fps } from '../../../input/tables/runs.ts'
import { failed, ok, type Problem, type Result } from '../../../problem.ts'
import { beingFitted } from '../../../uses/answerQuestion.ts'
import type { QuestionLine } from '../../../uses/views.ts'
import { chatTextOf, letterOf, pickOf } from '../../../words/answer.ts'
import { figuresOf } from '../../frame.ts'
import type { WebUses } from '../../webUses.ts'
import { instant, key, keyInPath, minor, named, numberBy, textBy, told } from '../describe.ts'
import { endpoint, PAGE_DEFAULT, pageOf, paging } from '../endpoint.ts'
import { later } from '../schemas/later.ts'
import { lowered } from '../schemas/lowered.ts'
import { limit, limitKey, part, partKind } from '../schemas/part.ts'
import { ranking } from '../schemas/ranking.ts'
import { sound } from '../schemas/sound.ts'
import { spaceRow } from '../schemas/space.ts'
import { limitsShown } from './machines.ts'

const id = keyInPath('The key of the question.', 'Q-0301')
const state = z.enum(QUESTION_STATES)

const questionLine = named(
  'QuestionLine',
  z.strictObject({
    id: key,
    machineTag: key,
    words: z.string(),
    askedAt: instant,
    customerName: z.string().optional(),
    targetFps: z.number(),
    budgetMinor: minor.optional(),
    asks: z.enum(ASKS),
    state,
    remindAt: instant.optional(),
    openLimits: told(z.array(limitKey), 'Asked of the owner, and not there yet.'),
    arrivedLimits: z.array(limitKey),
    answeredAt: instant.optional(),
    drafted: told(z.boolean(), 'A message about it was drafted.'),
  }),
)

const display = z.strictObject({
  widthPx: z.number().optional(),
  heightPx: z.number().optional(),
  refreshHz: z.number().optional(),
})

const question = named(
  'Question',
  z.strictObject({
    id: key,
    machineTag: key,
    words: z.string(),
    askedAt: instant,
    wanted: z.array(z.strictObject({ titleId: key, settingId: key, weight: z.number().positive() })),
    display,
    targetFps: z.number(),
    budgetMinor: minor.optional(),
    wishes: z.array(z.enum(WISHES)),
    spaceGB: z.number().optional(),
    asks: z.enum(ASKS).optional(),
    cameBy: z.enum(CHANNELS).optional(),
    complaint: z.enum(COMPLAINTS).optional(),
    partInMind: z
      .strictObject({
        kind: partKind,
        words: z.string(),
        priceMinor: minor.optional(),
        part: part.optional(),
        model: z.enum(['exact', 'not known']).optional(),
      })
      .optional(),
    plannedDisplay: display.optional(),
  }),
)

const standing = named(
  'QuestionStanding',
  z.strictObject({
    question,
    state,
    remindAt: instant.optional(),
    steps: z.array(
      z.strictObject({ at: instant, from: z.string(), to: z.string(), because: z.string().optional() }),
    ),
    changes: told(
      z.array(z.strictObject({ at: instant, changed: z.array(z.enum(CHANGEABLE)), was: question })),
      'What it asked before, the oldest change first.',
    ),
    keptAnswers: told(z.array(z.strictObject({ answerId: key, at: instant })), 'The newest first.'),
  }),
)

const answer = named(
  'Answer',
  z.strictObject({
    questionId: key,
    machineTag: key,
    at: told(instant, 'When it was computed: now; nothing is kept.'),
    lead: told(z.string(), 'The answer in one line.'),
    text: told(z.string(), 'The answer as a message for a chat.'),
    pickId: told(z.string(), 'The option that the message recommends; absent where none is.').optional(),
    limits: z.array(limit),
    ranking,
    lowered: told(z.array(lowered), 'Titles one slider lower: nothing to buy, the largest gain first.'),
    space: told(
      z.array(spaceRow),
      'Drives of the shelf in this machine; only where the owner asked for more space.',
    ).optional(),
    later: told(
      later,
      'Waiting, and saving for a new platform; absent in answers kept before that was looked at.',
    ).optional(),
    sound: told(
      sound,
      'How loud things were measured to be; only where the owner asked for quiet.',
    ).optional(),
    parts: told(z.array(part), 'The parts that the ranking names.'),
    versions: z.strictObject({
      facts: z.string(),
      rules: z.string(),
      gain: z.string(),
      ranking: z.string(),
    }),
  }),
)

const newDisplay = z.strictObject({
  widthPx: numberBy(whole(320, 16_000, 'pixels')).optional(),
  heightPx: numberBy(whole(200, 16_000, 'pixels')).optional(),
  refreshHz: numberBy(number(20, 2000, 'Hz')).optional(),
})

const amount = z.int().min(0).max(Number.MAX_SAFE_INTEGER)

const asked = {
  words: told(textBy(lines(500)), 'What the owner asked, in their own words.'),
  wanted: told(
    z
      .array(
        z.strictObject({
          titleId: key,
          settingId: key,
          weight: numberBy(number(0.01, 100)).optional(),
        }),
      )
      .max(12),
    'Titles the owner plays, each once, at the setting that counts.',
  ),
  display: newDisplay.optional(),
  targetFps: told(numberBy(fps), `Wanted average; ${TARGET_FPS_DEFAULT} when it is not said.`).optional(),
  budgetMinor: told(amount, 'Whole minor units.').optional(),
  wishes: z.array(z.enum(WISHES)).max(WISHES.length).optional(),
  spaceGB: told(
    numberBy(spaceGB),
    'The least that a drive should hold, for the wish for more space.',
  ).optional(),
  asks: z.enum(ASKS).optional(),
  cameBy: z.enum(CHANNELS).optional(),
  complaint: z.enum(COMPLAINTS).optional(),
  partInMind: z
    .strictObject({ kind: partKind, words: textBy(line()), priceMinor: amount.optional() })
    .optional(),
  plannedDisplay: newDisplay.optional(),
}

const newQuestion = named(
  'NewQuestion',
  z.strictObject({
    machine: told(
      textBy(line(60)),
      'The tag, or, for a key that may know people, the owner’s name where it means one machine.',
      'M-0207',
    ),
    ...asked,
  }),
)

const questionChange = named('QuestionChange', z.strictObject(asked))

/** What is asked, as the form gives it: defaults where a program said nothing. */
const askedIn = ({
  wanted,
  display: shown = {},
  targetFps = TARGET_FPS_DEFAULT,
  wishes = [],
  ...rest
}: z.infer<typeof questionChange>) => ({
  ...rest,
  wanted: wanted.map((w) => ({ ...w, weight: w.weight ?? 1 })),
  ...{ display: shown, targetFps, wishes },
})

/** All of them, whatever place they have on the page; the newest first. */
const shownLine = (l: QuestionLine) => ({
  ...{ id: l.id, machineTag: l.machineTag, words: l.words, askedAt: l.askedAt, customerName: l.customerName },
  ...{ targetFps: l.targetFps, budgetMinor: l.budgetMinor, asks: l.asks, state: l.state },
  ...{ remindAt: l.remindAt, openLimits: [...l.openLimits], arrivedLimits: [...l.arrivedLimits] },
  ...{ answeredAt: l.answeredAt, drafted: l.drafted },
})

/** A title counts once; the import says the same. */
function twice(wanted: Question['wanted']): Problem[] {
  return wanted.flatMap(({ titleId }, n): Problem[] => {
    if (wanted.findIndex((w) => w.titleId === titleId) === n) return []
    const next = 'This title is named twice. Keep it once, with a weight if it counts more.'
    return [{ code: 'duplicate', field: `wanted[${n}].titleId`, got: titleId, next }]
  })
}

function answerShown(computed: Answer) {
  const { inputs, limits, versions, at } = computed
  const letter = letterOf(computed)
  return {
    ...{ questionId: inputs.question.id, machineTag: inputs.machine.tag, at },
    ...{ lead: letter.lead.answer, text: chatTextOf(computed), pickId: pickOf(computed)?.id },
    limits: limitsShown(limits, figuresOf(inputs.shop)),
    lowered: computed.lowered ?? [],
    ...(computed.later !== undefined && { later: computed.later }),
    ...(computed.space !== undefined && { space: [...computed.space] }),
    ...(computed.sound !== undefined && { sound: computed.sound }),
    ...{ ranking: toldRanking(computed), parts: inputs.parts, versions: { ...versions } },
  }
}

/** A program waits so long for the gain model; then it is told to ask again. */
const FIT_WAIT_MS = 10_000

/** With all its numbers: a program that ranks by half of them would not know. */
async function wholeAnswer(uses: WebUses, id: string): Promise<Result<Answer>> {
  const before = await uses.fitUnderWay(FIT_WAIT_MS)
  if (before !== undefined) return failed(beingFitted(before))
  const found = await uses.questionView(id)
  if (!found.ok) return found
  const { answer: now, fitting } = found.value
  return fitting === undefined ? ok(now) : failed(beingFitted(fitting))
}

export const questionEndpoints = [
  endpoint({
    id: 'listQuestions',
    ...{ method: 'get', path: '/questions', group: 'Questions', scope: 'read' },
    says: 'Questions of past buyers, the newest first.',
    query: z.strictObject({ state: state.optional(), ...paging }),
    answer: pageOf(questionLine),
    run: async ({ uses }, { query }) => {
      const { limit = PAGE_DEFAULT, offset = 0 } = query
      const states = query.state === undefined ? QUESTION_STATES : [query.state]
      const { lines, total } = await uses.questionList({ states, offset, most: limit })
      return ok({ items: lines.map(shownLine), total, limit, offset })
    },
  }),
  endpoint({
    id: 'takeQuestion',
    ...{ method: 'post', path: '/questions', group: 'Questions', scope: 'write', status: 201 },
    says: 'Takes down a question as it is asked now.',
    body: newQuestion,
    answer: z.strictObject({ id: key }),
    run: async ({ uses }, { body }) => {
      const { machine, ...rest } = body
      const fields = askedIn(rest)
      const problems = twice(fields.wanted)
      if (problems.length > 0) return failed(...problems)
      const kept = await uses.takeQuestion({ ...fields, machineTag: machine })
      if (kept.ok) return kept
      const inBody = (p: Problem) => (p.field === 'machineTag' ? { ...p, field: 'machine' } : p)
      return { ok: false, problems: kept.problems.map(inBody) }
    },
  }),
  endpoint({
    id: 'getQuestion',
    ...{ method: 'get', path: '/questions/{id}', group: 'Questions', scope: 'read' },
    says: 'One question as it was asked, how far it is, and the answers that were kept.',
    params: z.strictObject({ id }),
    answer: standing,
    run: async ({ uses }, { params }) => {
      const found = await uses.questionView(params.id)
      if (!found.ok) return found
      const { answer: now, state: far, remindAt, steps, edits, earlier } = found.value
      return ok({
        ...{ question: now.inputs.question, state: far, remindAt },
        steps: steps.map(({ at, from, to, because }) => ({ at, from, to, because })),
        changes: edits.map(({ at, changed, was }) => ({ at, changed: [...changed], was })),
        keptAnswers: earlier.map(({ answerId, at }) => ({ answerId, at })),
      })
    },
  }),
  endpoint({
    id: 'changeQuestion',
    ...{ method: 'put', path: '/questions/{id}', group: 'Questions', scope: 'write' },
    says: 'What a question asks from now on, whole: what is left out is not known any more. Refused once it is agreed. Answers that were kept stay as they were told, and an answered question is new again.',
    params: z.strictObject({ id }),
    body: questionChange,
    answer: z.strictObject({ id: key }),
    run: async ({ uses }, { params, body }) => {
      const fields = askedIn(body)
      const problems = twice(fields.wanted)
      if (problems.length > 0) return failed(...problems)
      return uses.changeQuestion(params.id, fields)
    },
  }),
  endpoint({
    id: 'answerQuestion',
    ...{ method: 'get', path: '/questions/{id}/answer', group: 'Questions', scope: 'read' },
    says: 'The answer as things stand now: words, limits and ranking. Nothing is kept.',
    params: z.strictObject({ id }),
    answer,
    run: async ({ uses }, { params }) => {
      const found = await wholeAnswer(uses, params.id)
      return found.ok ? ok(answerShown(found.value)) : found
    },
  }),
  endpoint({
    id: 'rankQuestion',
    ...{ method: 'get', path: '/questions/{id}/ranking', group: 'Judging', scope: 'read' },
    says: 'What the shelf allows for a question, ranked; the same JSON as the command rank --json. Nothing is kept.',
    params: z.strictObject({ id }),
    answer: ranking,
    run: async ({ uses }, { params }) => {
      const found = await wholeAnswer(uses, params.id)
      return found.ok ? ok(toldRanking(found.value)) : found
    },
  }),
]
