import type { AnswerInputs } from '../../src/core/answer.ts'
import { computeAnswer } from '../../src/core/computeAnswer.ts'
import type { Kept } from '../../src/core/job/promise.ts'
import type { QuestionState } from '../../src/core/job/states.ts'
import type { PartInMind } from '../../src/core/question.ts'
import { failed, ok, type Problem } from '../../src/problem.ts'
import type { Day } from '../../src/uses/day.ts'
import { NO_LINK } from '../../src/uses/ownerLinks.ts'
import type { OwnerPerson } from '../../src/uses/ownerPerson.ts'
import type { OwnerRequest, QuestionLine, Ready } from '../../src/uses/views.ts'
import type { Who } from '../../src/web/access/who.ts'
import type { WebUses } from '../../src/web/webUses.ts'
import { homeSheetOf } from '../../src/words/homeSheet.ts'
import { ACCESS_STATES } from './accessStates.ts'
import { FIND_STATES } from './cannedFind.ts'
import { FINDABLE_STATES } from './cannedFindable.ts'
import { FRAME_LOG_STATES } from './cannedFrameLogs.ts'
import { jobLineAt, jobViewAt, joiningAt, NO_JOBS, type Stage } from './cannedJobs.ts'
import { MEASURE_STATES } from './cannedMeasure.ts'
import { OFFERS_STATES } from './cannedOffers.ts'
import { outboxStates } from './cannedOutbox.ts'
import { cannedKept, personWith } from './cannedPerson.ts'
import { PLATFORMS_STATES } from './cannedPlatforms.ts'
import { READING_STATES, TABLE_TEXT } from './cannedReading.ts'
import { ROUND_STATES } from './cannedRounds.ts'
import { runStates } from './cannedRuns.ts'
import { SELL_STATES } from './cannedSell.ts'
import { SHEET_STATES } from './cannedSheet.ts'
import { SHELF_STATES } from './cannedShelf.ts'
import { inputs, NOW, withModel } from './cannedShop.ts'
import { cannedUses, emptyUses, NO_QUESTIONS, TOKEN } from './cannedUses.ts'
import { WORK_STATES } from './cannedWork.ts'
import { fittingUses } from './fittingUses.ts'
import { KEEPING_STATES } from './keepingStates.ts'
import { LATER_STATES } from './laterStates.ts'

/** One page in one state: an address, what the shop holds then, and for answers to a form what was sent. */
export type PageState = {
  readonly name: string
  readonly path: string
  readonly status?: number
  readonly form?: Readonly<Record<string, string>>
  readonly inputs?: AnswerInputs
  readonly uses?: Partial<WebUses>
  readonly demo?: boolean
  /** Who asks; the owner, where it is not said. */
  readonly as?: Who | 'stranger'
  /** What the browser sends along of an earlier sign-in. */
  readonly cookie?: string
}

const withQuestion = (changes: Partial<AnswerInputs['question']>): AnswerInputs => ({
  ...inputs,
  question: { ...inputs.question, ...changes },
})

/** The same shop with the gain model fitted to its runs. */
const estimated: AnswerInputs = withModel(inputs)

const NO_SHELF: Ready = { shop: true, machines: true, titles: true, shelf: false, runs: false }

const PART = { kind: 'card', words: 'Flint 8' } as const

const askedFor = (partInMind: PartInMind, wanted = inputs.question.wanted): AnswerInputs =>
  withQuestion({ asks: 'can I put this in', partInMind, wanted, cameBy: 'chat' })

const REQUEST: OwnerRequest = {
  id: '1',
  machineTag: 'T-0007',
  questionId: 'Q-0007',
  limitKey: 'coolerRoomMm',
  state: 'open',
  askedAt: '2026-06-10T15:00:00.000Z',
}

/** The question in that state, with what was asked of its owner for it. */
const standing = (state: QuestionState): Partial<WebUses> => ({
  questionView: async () =>
    ok({
      answer: computeAnswer(inputs, NOW),
      earlier: [],
      state,
      remindAt: '2026-06-11T17:00:00.000Z',
      steps: [
        {
          about: 'question',
          ref: 'Q-0007',
          at: '2026-06-10T15:00:00.000Z',
          from: 'new',
          to: 'waiting for the owner',
          because: 'asked for: coolerRoomMm',
        },
      ],
      edits: [],
      photos: [],
      requests: [{ ...REQUEST, state: state === 'new' ? 'answered' : 'open' }],
    }),
})

/** An answered question of an owner who has sold the machine since. */
const soldOn: Partial<WebUses> = {
  questionView: async () => ({
    ok: true,
    value: {
      answer: computeAnswer(inputs, NOW),
      earlier: [],
      state: 'answered',
      soldOnAt: '2026-06-10T15:00:00.000Z',
      steps: [],
      edits: [],
      requests: [],
      photos: [],
    },
  }),
}

/** A question that was changed after an answer of it was kept; `fixed`: it was agreed since. */
const changed = (fixed?: Problem): Partial<WebUses> => ({
  questionView: async () =>
    ok({
      ...{ answer: computeAnswer(inputs, NOW), state: 'new', steps: [], requests: [], photos: [], fixed },
      earlier: [{ answerId: '1', at: '2026-06-09T15:00:00.000Z', messageId: '1' }],
      edits: [
        {
          ...{ id: '1', at: '2026-06-10T15:00:00.000Z', changed: ['words', 'wanted', 'partInMind'] },
          was: {
            ...{
              ...inputs.question,
              words: 'Can I put this in?',
              wanted: inputs.question.wanted.slice(0, 1),
            },
            partInMind: { kind: 'card', words: 'some card, second hand', priceMinor: 9000 },
          },
        },
      ],
    }),
})

/** An owner with a job to fit at home; firmware first, which is not for the owner. */
const fitsAtHome: Partial<WebUses> = {
  ownerPage: async (token) => {
    const page = await cannedUses().uses.ownerPage(token)
    if (!page.ok) return page
    const { steps, parts } = jobViewAt('handed over')
    const firmware = {
      what: 'work',
      ref: 'firmware update',
      cautions: ['no-power-loss'],
      position: -1,
    } as const
    const name = (id: string) => parts.find((part) => part.id === id)?.name ?? id
    const sheet = homeSheetOf('T-0007', [firmware, ...steps], name)
    return ok({ ...page.value, home: sheet === undefined ? [] : [{ jobId: 'J-0001', sheet }] })
  },
}

/** The owner's page with what its owner decided. */
const ofPerson = (person: OwnerPerson): Partial<WebUses> => ({
  ownerPage: async (token) => {
    const page = await cannedUses().uses.ownerPage(token)
    return page.ok ? ok({ ...page.value, person }) : page
  },
})

/** The owner's page in German, with everything on it. */
const inGerman: Partial<WebUses> = {
  ownerPage: async (token) => {
    const page = await cannedUses().uses.ownerPage(token)
    if (!page.ok) return page
    const reading = { at: NOW }
    return ok({ ...page.value, person: personWith, language: 'de', chosen: 'de', reading })
  },
}

/** An owner who said that the machine is sold. */
const parted: Partial<WebUses> = {
  ownerPage: async () => failed(NO_LINK),
  ownerParted: async () => {
    const { name, locale, timeZone } = await cannedUses().uses.shop()
    const shop = { name, locale, timeZone }
    return ok({
      ...{ shop, language: 'en', tag: 'T-0007', saidAt: NOW, until: '2026-06-12T15:00:00.000Z' },
    })
  },
}

/** A machine whose owner said that it is sold. */
const partedMachine: Partial<WebUses> = {
  machine: async (tag) => {
    const found = await cannedUses().uses.machine(tag)
    return found.ok ? ok({ ...found.value, partedAt: NOW }) : found
  },
}

/** A day with everything on it. */
const BUSY_DAY: Day = {
  due: [jobLineAt('booked'), { ...jobLineAt('missed'), remindAt: NOW }],
  ...{ bench: [jobLineAt('in')], untold: [jobLineAt('done')] },
  ...{ mails: { drafted: 3, held: 1, failed: 1 }, odd: 2, stale: 1, parts: inputs.parts },
  ...{ toSettle: [{ roundId: 'O-1', yeses: 1 }], dealsOver: [{ roundId: 'O-2', yeses: 5 }] },
  wanted: { id: '1', at: NOW, items: [{ itemId: 'S-1', partId: 'CRD-FLINT8', customers: 4 }] },
  warranties: ['CRD-PEBBLE4', 'MEM-8', 'CRD-FLINT8', 'CRD-FLINT8'].map((partId) => ({
    ...{ machineTag: 'T-0007', partId, until: '2026-06-30T17:00:00.000Z' },
  })),
}

/** A customer who asked to be erased. */
const asksErase: Partial<WebUses> = {
  customer: async (id) => {
    const found = await cannedUses().uses.customer(id)
    if (!found.ok) return found
    const eraseRequest = { customerId: id, askedAt: NOW, source: 'owner page' } as const
    return ok({ ...found.value, record: { ...found.value.record, eraseRequest } })
  },
}

const saidByOwners: Partial<WebUses> = {
  questions: async () => ({
    ...(await cannedUses().uses.questions()),
    fromOwners: {
      partings: [{ tag: 'T-0007', name: 'Imre Vale', saidAt: NOW }],
      erases: [{ customerId: 'C-8', name: 'Petra Quill', askedAt: NOW }],
      readings: [{ id: '1', tag: 'T-0007', at: NOW }],
    },
  }),
}

const line = (id: string, changes: Partial<QuestionLine>): QuestionLine => ({
  ...{ id, machineTag: 'T-0007', words: `What about question ${id}?`, askedAt: '2026-06-01T15:00:00.000Z' },
  ...{ customerName: 'Imre Vale', targetFps: 60, asks: 'what can I do', state: 'new' },
  ...{ openLimits: [], arrivedLimits: [], drafted: false },
  ...changes,
})

const allQuestions: Partial<WebUses> = {
  questions: async () => ({
    resumed: [
      {
        ...line('Q-1', { arrivedLimits: ['cardRoomMm'], asks: 'can I put this in' }),
        answerLine: 'No, it does not go in.',
      },
    ],
    due: [line('Q-2', { remindAt: '2026-06-11T17:00:00.000Z', state: 'answered' })],
    waiting: [line('Q-3', { asks: 'something is wrong' })],
    asked: [line('Q-4', { state: 'waiting for the owner', openLimits: ['coolerRoomMm'] })],
    written: [line('Q-5', { state: 'answered', soldOnAt: '2026-06-10T15:00:00.000Z' })],
    over: { answered: 31, calledOff: 2 },
    ...{ emptyShop: false, ready: { ...NO_SHELF, shelf: true } },
  }),
}

/** A machine whose owner is asked for something, with a photo and a link. */
const askedMachine: Partial<WebUses> = {
  machine: async (tag) => {
    const canned = await cannedUses().uses.machine(tag)
    if (!canned.ok) return canned
    const photo = {
      id: '1',
      machineTag: 'T-0007',
      takenBy: 'owner',
      mediaType: 'image/png',
      at: NOW,
    } as const
    return ok({
      ...canned.value,
      requests: [REQUEST],
      photos: [
        { ...photo, requestId: '1' },
        { ...photo, id: '1', questionId: 'Q-0007' },
      ],
      ownerReadings: [{ id: '1', at: NOW }],
      links: [{ createdAt: NOW, expiresAt: '2026-09-10T15:00:00.000Z' }],
    })
  },
}

/** A maximum from the machine's own table, which is a hint and not counted. */
const withHint: AnswerInputs = {
  ...inputs,
  machine: {
    ...inputs.machine,
    claims: [...inputs.machine.claims, { key: 'memoryMaxGB', value: 32, source: 'read' }],
  },
}

/** Sockets, ports and a drive that may sit in either socket, for the drawing of the machine's slots. */
const withSlots: AnswerInputs = {
  ...inputs,
  machine: {
    ...inputs.machine,
    build: {
      ...inputs.machine.build,
      ...(inputs.machine.build.board && {
        board: {
          ...inputs.machine.build.board,
          sataPorts: 4,
          m2Sockets: [
            { name: 'M2_1', key: 'M', lengthsMm: [60, 80], pcieGen: 4, lanes: 4, sata: false },
            {
              name: 'M2_2',
              key: 'M',
              lengthsMm: [80],
              pcieGen: 3,
              lanes: 4,
              sata: true,
              sataPortsOff: ['SATA_4'],
            },
          ],
        },
      }),
      drives: [
        {
          kind: 'drive',
          id: 'DRV-A',
          name: 'Stick',
          form: 'M.2',
          interface: 'PCIe',
          m2Key: 'M',
          lengthMm: 80,
        },
        { kind: 'drive', id: 'DRV-B', name: 'Disk', form: '3.5-inch', interface: 'SATA' },
      ],
    },
  },
}

/** Nothing but board and memory is written down, and of these next to nothing. */
const bareSlots: AnswerInputs = {
  ...inputs,
  machine: {
    ...inputs.machine,
    build: {
      board: { kind: 'board', id: 'BRD-BARE', name: 'Bare' },
      memory: [{ kind: 'memory', id: 'MEM-BARE', name: 'Bare' }],
      ...{ drives: [], fans: [] },
    },
    claims: [],
  },
}

const importProblems: Partial<WebUses> = {
  importFiles: async () =>
    failed(
      {
        code: 'not a number',
        field: 'fps',
        got: '12O',
        next: 'This is not a number.',
        allowed: 'a number from 0.1 to 10000 (FPS)',
        file: 'runs.csv',
        line: 18,
      },
      {
        code: 'unknown name',
        field: 'part',
        got: 'CARD-X',
        next: 'No part has this name.',
        file: 'shelf.csv',
        line: 4,
      },
    ),
}

const shared: Partial<WebUses> = {
  part: async () =>
    ok({
      part: inputs.parts.find((p) => p.kind === 'board') ?? { kind: 'board', id: 'x', name: 'x' },
      fittedIn: ['T-0007', 'T-0011'],
      shelf: [],
    }),
}

const jobAt = (stage: Stage, now = inputs): Partial<WebUses> => ({
  job: async () => ok(jobViewAt(stage, now)),
})

/** The fitted card is under a warranty that the best options touch. */
const underWarranty: AnswerInputs = {
  ...inputs,
  warranties: [
    {
      ...{ machineTag: 'T-0007', partId: 'CRD-PEBBLE4', givenBy: 'shop', from: '2025-09-02T17:00:00.000Z' },
      ...{ until: '2027-09-02T17:00:00.000Z', endsWith: 'a broken seal on the shroud' },
    },
  ],
}

const held = failed({
  ...{ code: 'conflict', field: 'shelf', got: 'Flint 8G' },
  next: '(S-1) is put aside for J-0002. Choose another option, or call that job off first.',
})

/** Jobs: their place, one job at every stage, the yes, and a machine that is sold on. */
const JOB_STATES: readonly PageState[] = [
  { name: 'jobs', path: '/jobs' },
  { name: 'jobs-none', path: '/jobs', uses: { jobs: async () => NO_JOBS } },
  { name: 'jobs-over', path: '/jobs?all=done' },
  { name: 'jobs-over-none', path: '/jobs?all=calledOff', uses: { jobs: async () => NO_JOBS } },
  { name: 'job-booked', path: '/jobs/J-0001' },
  { name: 'job-agreed', path: '/jobs/J-0001', uses: jobAt('agreed') },
  { name: 'job-missed', path: '/jobs/J-0001', uses: jobAt('missed') },
  { name: 'job-bench', path: '/jobs/J-0001', uses: jobAt('bench') },
  { name: 'job-in', path: '/jobs/J-0001', uses: jobAt('in') },
  { name: 'job-handed-over', path: '/jobs/J-0001', uses: jobAt('handed over') },
  { name: 'job-sheet', path: '/jobs/J-0001/sheet', uses: jobAt('handed over') },
  { name: 'job-at-home', path: '/jobs/J-0001', uses: jobAt('at home') },
  { name: 'job-done', path: '/jobs/J-0001', uses: jobAt('done') },
  {
    name: 'job-promise-missed',
    path: '/jobs/J-0001',
    uses: {
      job: async () => {
        const view = jobViewAt('done')
        const missed = (kept: Kept): Kept => ({
          ...kept,
          outcome: 'missed, worse',
          measuredFps: kept.promised.afterFpsLow - 8,
        })
        return ok({
          ...view,
          job: { ...view.job, state: 'on the bench', missChecked: 'driver and temperatures' },
          kept: view.kept.map((kept, i) => (i === 0 ? missed(kept) : kept)),
        })
      },
    },
  },
  { name: 'job-called-off', path: '/jobs/J-0001', uses: jobAt('called off') },
  {
    name: 'job-run-wrong',
    path: '/jobs/J-0001/run',
    status: 422,
    form: { title: 'lantern@1080-high', averageFps: '6O', low1Fps: '40' },
    uses: jobAt('in'),
  },
  {
    name: 'job-out-wrong',
    path: '/jobs/J-0001/out/1',
    status: 422,
    form: { do: 'on the shelf', 'price.1': '', 'credit.1': 'lots', 'warrantyMonths.1': '-3' },
    uses: jobAt('in'),
  },
  {
    name: 'job-no-run',
    path: '/jobs/J-0001',
    uses: {
      job: async () =>
        ok({
          ...jobViewAt('in'),
          runProblems: [
            {
              ...{ code: 'missing', field: 'machine' },
              next: 'A run tells nothing without what ran: how its memory runs is not known. Enter it on the page of T-0007, then note the run.',
            },
          ],
        }),
    },
  },
  { name: 'job-unknown', path: '/jobs/J-9', status: 404 },
  { name: 'yes', path: '/questions/Q-0007/yes?option=S-1' },
  { name: 'yes-kept', path: '/questions/Q-0007/yes?option=S-1&answer=1', inputs: underWarranty },
  {
    name: 'yes-held',
    path: '/questions/Q-0007/yes',
    status: 409,
    form: { option: 'S-1', fittedBy: 'shop', bookedDay: '2026-06-20' },
    uses: { agreeJob: async () => held },
  },
  {
    name: 'yes-wrong',
    path: '/questions/Q-0007/yes',
    status: 422,
    form: { option: 'S-1', fittedBy: 'shop', bookedTime: '25:00', deposit: '-1' },
  },
  {
    name: 'yes-joins-booked',
    path: '/questions/Q-0007/yes?option=S-1',
    uses: { toAgree: joiningAt('booked') },
  },
  {
    name: 'yes-joins-bench',
    path: '/questions/Q-0007/yes?option=S-1',
    uses: { toAgree: joiningAt('bench') },
  },
  { name: 'yes-unknown', path: '/questions/Q-0007/yes?option=S-999', status: 404 },
  {
    name: 'question-agreed',
    path: '/questions/Q-0007',
    inputs: underWarranty,
    uses: { jobsOfQuestion: async () => [jobLineAt('booked')] },
  },
  { name: 'machine-sold-on', path: '/machines/T-0007/owner' },
  {
    name: 'machine-sold-on-wrong',
    path: '/machines/T-0007/owner',
    status: 422,
    form: { ownerName: 'Petra Quill', ownerEmail: 'nobody' },
  },
]

const fitting = fittingUses({ runs: 20_000, sinceMs: 2_300, usualMs: 5_100 })

/** Every page in every state worth looking at. */
export const PAGE_STATES: readonly PageState[] = [
  ...ACCESS_STATES,
  ...KEEPING_STATES,
  { name: 'questions', path: '/' },
  ...MEASURE_STATES,
  { name: 'questions-today', path: '/', uses: { day: async () => BUSY_DAY } },
  { name: 'questions-demo', path: '/', demo: true },
  { name: 'start', path: '/', uses: emptyUses },
  {
    name: 'questions-none',
    path: '/',
    uses: { questions: async () => ({ ...NO_QUESTIONS, emptyShop: false, ready: NO_SHELF }) },
  },
  { name: 'questions-list', path: '/questions' },
  { name: 'questions-list-answered', path: '/questions?group=answered' },
  { name: 'questions-list-no-match', path: '/questions?q=zzz' },
  {
    ...{ name: 'questions-list-second-page', path: '/questions?group=answered&q=what&page=2' },
    uses: {
      questionList: async () => ({
        lines: [line('Q-5', { state: 'answered', soldOnAt: '2026-06-10T15:00:00.000Z' })],
        ...{ total: 131, counts: { new: 3, 'waiting for the owner': 1, answered: 131, 'called off': 2 } },
      }),
    },
  },
  { name: 'question-new', path: '/questions/new?machine=T-0007' },
  {
    name: 'question-new-wrong',
    path: '/questions/new',
    status: 422,
    form: {
      do: 'save',
      machineTag: 'T-9',
      words: '',
      'wanted.0.title': 'lantern',
      targetFps: '6O',
      budget: '1,500',
    },
  },
  { name: 'question-new-bare', path: '/questions/new', uses: emptyUses },
  {
    name: 'question-new-part',
    path: '/questions/new',
    status: 422,
    form: {
      do: 'save',
      asks: 'can I put this in',
      machineTag: 'T-0007',
      words: 'Can I put this in? I can get it for 120.',
      partKind: 'card',
      partWords: '',
      partPrice: '120',
      'inMind.card.lengthMm': '33 hands',
    },
  },
  {
    name: 'question-new-read',
    path: '/questions/new',
    form: {
      do: 'read',
      message:
        'T-0007 here. Can I put a Flint 8 in? I can get it for 120. I play Lantern at 1920x1080 on 75 Hz, 60 fps or 75 fps. About $200.',
    },
  },
  {
    name: 'question-new-tested',
    path: '/questions/new',
    form: { do: 'tested', machineTag: 'T-0007', words: 'More in the games you tested?' },
  },
  {
    name: 'question-new-tested-nobody',
    path: '/questions/new',
    status: 422,
    form: { do: 'tested', words: 'More in the games you tested?' },
  },
  { name: 'question-new-read-nothing', path: '/questions/new', form: { do: 'read', message: 'hello' } },
  { name: 'settings', path: '/settings' },
  { name: 'settings-saved', path: '/settings?saved' },
  {
    name: 'settings-wrong',
    path: '/settings',
    status: 422,
    form: {
      name: 'A shop',
      currency: 'dollars',
      locale: 'en-US',
      time_zone: 'Mars',
      supply_share_pct: '180',
    },
  },
  { name: 'question', path: '/questions/Q-0007' },
  { name: 'question-demo', path: '/questions/Q-0007', demo: true },
  { name: 'question-option', path: '/questions/Q-0007?option=S-2' },
  { name: 'question-estimated', path: '/questions/Q-0007', inputs: estimated },
  { name: 'question-fit-failed', path: '/questions/Q-0007', inputs: { ...inputs, gainFailed: true } },
  { name: 'question-fitting', path: '/questions/Q-0007', uses: fitting },
  {
    name: 'question-fitting-sent',
    path: '/questions/Q-0007/message',
    form: { optionId: 'S-1' },
    uses: fitting,
    status: 503,
  },
  { name: 'why-fitting', path: '/questions/Q-0007/why?option=S-1', uses: fitting },
  { name: 'why-measured', path: '/questions/Q-0007/why?option=S-1', inputs: estimated },
  { name: 'why-estimated', path: '/questions/Q-0007/why?option=S-2', inputs: estimated },
  { name: 'why-before-the-model', path: '/answers/1/why?option=S-1' },
  { name: 'why-no-option', path: '/questions/Q-0007/why?option=S-99', status: 404 },
  { name: 'question-no-runs', path: '/questions/Q-0007', inputs: { ...inputs, runs: [] } },
  { name: 'question-empty-shelf', path: '/questions/Q-0007', inputs: { ...inputs, shelf: [] } },
  {
    name: 'question-bare',
    path: '/questions/Q-0007',
    inputs: { ...withQuestion({ budgetMinor: undefined, display: {}, wishes: [] }), customer: undefined },
  },
  {
    name: 'question-bare-machine',
    path: '/questions/Q-0007',
    inputs: {
      ...inputs,
      machine: { tag: 'T-0007', build: { memory: [], drives: [], fans: [] }, claims: [] },
    },
  },
  { name: 'question-part', path: '/questions/Q-0007', inputs: askedFor({ ...PART, priceMinor: 12_000 }) },
  {
    name: 'question-part-no-titles',
    path: '/questions/Q-0007',
    inputs: askedFor({ ...PART, words: 'Some big card 8GB 335 mm', priceMinor: 12_000 }, []),
  },
  {
    name: 'part-in-mind',
    path: '/questions/Q-0007/part',
    inputs: askedFor({ ...PART, words: 'Some big card 8GB 335 mm', priceMinor: 12_000 }),
  },
  {
    name: 'part-in-mind-wrong',
    path: '/questions/Q-0007/part',
    status: 422,
    inputs: askedFor({ ...PART, words: 'Some big card', priceMinor: 12_000 }),
    form: { 'figure.lengthMm': '33 hands' },
  },
  { name: 'part-in-mind-none', path: '/questions/Q-0007/part', status: 404 },
  {
    name: 'question-part-no-price',
    path: '/questions/Q-0007',
    inputs: askedFor({ ...PART, priceMinor: undefined }),
  },
  {
    name: 'question-hot',
    path: '/questions/Q-0007',
    inputs: withQuestion({ asks: 'something is wrong', complaint: 'hot', wanted: [], cameBy: 'phone' }),
  },
  {
    name: 'question-slow',
    path: '/questions/Q-0007',
    inputs: withQuestion({ asks: 'something is wrong', complaint: 'slow' }),
  },
  {
    name: 'question-system',
    path: '/questions/Q-0007',
    inputs: withQuestion({ asks: 'next system version', wanted: [] }),
  },
  {
    name: 'question-will-it-run',
    path: '/questions/Q-0007',
    inputs: withQuestion({ asks: 'will it run this' }),
  },
  { name: 'question-waits', path: '/questions/Q-0007', uses: standing('waiting for the owner') },
  { name: 'question-sold-on', path: '/questions/Q-0007', uses: soldOn },
  { name: 'question-changed', path: '/questions/Q-0007', uses: changed() },
  {
    name: 'question-changed-agreed',
    path: '/questions/Q-0007',
    uses: changed({ code: 'conflict', field: 'question', next: 'It was agreed as J-0001.' }),
  },
  { name: 'question-change', path: '/questions/Q-0007/change' },
  { name: 'question-change-back', path: '/questions/Q-0007/change?was=1', uses: changed() },
  {
    name: 'question-change-wrong',
    path: '/questions/Q-0007/change',
    form: { do: 'save', words: '', budget: 'a lot', 'wanted.0.title': 'lantern' },
    status: 422,
  },
  {
    name: 'question-change-agreed',
    path: '/questions/Q-0007/change',
    uses: changed({ code: 'conflict', field: 'question', next: 'It was agreed as J-0001.' }),
    status: 409,
  },
  { name: 'question-arrived', path: '/questions/Q-0007', uses: standing('new') },
  { name: 'question-called-off', path: '/questions/Q-0007', uses: standing('called off') },
  { name: 'questions-all', path: '/', uses: allQuestions },
  { name: 'ask', path: '/ask?machine=T-0007&limit=coolerRoomMm&question=Q-0007' },
  {
    name: 'ask-done',
    path: '/ask',
    form: { machine: 'T-0007', limit: 'coolerRoomMm', question: 'Q-0007', do: 'link' },
  },
  { name: 'owner-link', path: '/machines/T-0007/owner-link', form: { x: '' } },
  { name: 'machine-owner', path: '/machines/T-0007', uses: askedMachine },
  { name: 'message-link', path: '/messages/1/link', form: { x: '' } },
  { name: 'owner', path: `/o/${TOKEN}` },
  { name: 'owner-fits', path: `/o/${TOKEN}`, uses: fitsAtHome },
  { name: 'owner-sheet', path: `/o/${TOKEN}/sheets/J-0001`, uses: fitsAtHome },
  { name: 'owner-sheet-none', path: `/o/${TOKEN}/sheets/J-0002`, uses: fitsAtHome, status: 404 },
  { name: 'owner-demo-sent', path: `/o/${TOKEN}?sent=question`, demo: true },
  {
    name: 'owner-wrong',
    path: `/o/${TOKEN}/questions`,
    status: 422,
    form: { do: 'send', words: '', budget: '2oo' },
  },
  {
    name: 'owner-limit-wrong',
    path: `/o/${TOKEN}/limits`,
    status: 422,
    form: { request: '1', 'limit.coolerRoomMm': 'two hands' },
  },
  { name: 'owner-unknown', path: '/o/nobody-made-this-link', status: 404 },
  { name: 'owner-consents', path: `/o/${TOKEN}`, uses: ofPerson(personWith) },
  {
    name: 'owner-objects',
    path: `/o/${TOKEN}?sent=stopped`,
    uses: ofPerson({
      ...{ ...personWith, hasAddress: false, eraseAskedAt: NOW },
      consent: { standing: 'withdrawn', at: NOW, wording: 'No more.', language: 'en' },
    }),
  },
  { name: 'owner-unticked', path: `/o/${TOKEN}/consent`, status: 422, form: { do: 'yes', wording: 'x' } },
  { name: 'owner-german', path: `/o/${TOKEN}`, uses: inGerman },
  {
    name: 'owner-german-wrong',
    path: `/o/${TOKEN}/questions`,
    ...{ uses: inGerman, status: 422 },
    form: { words: '', budget: 'viel', 'wanted.0.title': 'title-a', asks: 'can I put this in' },
  },
  { name: 'owner-german-erase', path: `/o/${TOKEN}/erase`, uses: inGerman },
  { name: 'owner-german-mine', path: `/o/${TOKEN}/mine`, uses: inGerman },
  { name: 'owner-reading', path: `/o/${TOKEN}/reading` },
  { name: 'owner-reading-german', path: `/o/${TOKEN}/reading`, uses: inGerman },
  { name: 'owner-reading-wrong', path: `/o/${TOKEN}/reading`, status: 400, form: { table: 'hello' } },
  { name: 'owner-reading-nothing', path: `/o/${TOKEN}/reading`, status: 422, form: { table: '' } },
  { name: 'owner-reading-preview', path: `/o/${TOKEN}/reading`, form: { table: TABLE_TEXT } },
  { name: 'owner-reading-sent', path: `/o/${TOKEN}?sent=reading` },
  { name: 'owner-sold', path: `/o/${TOKEN}/sold` },
  { name: 'owner-parted', path: `/o/${TOKEN}`, uses: parted },
  { name: 'owner-erase', path: `/o/${TOKEN}/erase` },
  { name: 'owner-erase-unsure', path: `/o/${TOKEN}/erase`, status: 422, form: { x: '' } },
  { name: 'owner-mine', path: `/o/${TOKEN}/mine` },
  { name: 'customers', path: '/customers' },
  {
    ...{ name: 'customers-none', path: '/customers' },
    uses: { customers: async () => ({ lines: [], total: 0 }), keepReminders: async () => ({ due: [] }) },
  },
  { name: 'customers-keep-wrong', path: '/customers/keep', status: 422, form: { months: 'a year' } },
  { name: 'customer', path: '/customers/C-7' },
  { name: 'customer-unknown', path: '/customers/nobody', status: 404 },
  {
    name: 'customer-no-words',
    path: '/customers/C-7/consent',
    status: 422,
    form: { do: 'yes', wording: '', source: 'mail' },
  },
  { name: 'customer-erase', path: '/customers/C-7/erase' },
  { name: 'customer-erase-asked', path: '/customers/C-7/erase', uses: asksErase },
  { name: 'customer-erase-unsure', path: '/customers/C-7/erase', status: 422, form: { x: '' } },
  {
    name: 'customer-erase-open-job',
    path: '/customers/C-7/erase',
    uses: { customerKept: async () => ok({ ...cannedKept, openJobs: ['J-0003'] }) },
  },
  { name: 'machine-parted', path: '/machines/T-0007', uses: partedMachine },
  { name: 'questions-from-owners', path: '/', uses: saidByOwners },
  { name: 'answer-kept', path: '/answers/1' },
  { name: 'machines', path: '/machines' },
  {
    ...{ name: 'machines-second-page', path: '/machines?q=imre&page=2' },
    uses: {
      machines: async (search) => ({ ...(await cannedUses().uses.machines(search)), total: 10_012 }),
    },
  },
  { name: 'machines-none', path: '/machines', uses: emptyUses },
  { name: 'machines-no-match', path: '/machines?q=zzz' },
  { name: 'machine', path: '/machines/T-0007' },
  {
    name: 'machine-limit-wrong',
    path: '/machines/T-0007/limits',
    status: 422,
    form: { key: 'coolerRoomMm', 'limit.coolerRoomMm': '16o', 'source.coolerRoomMm': 'measured' },
  },
  { name: 'machine-enter', path: '/machines/T-0007?enter=coolerRoomMm' },
  { name: 'machine-hint', path: '/machines/T-0007', inputs: withHint },
  { name: 'machine-slots', path: '/machines/T-0007', inputs: withSlots },
  { name: 'machine-slots-unknown', path: '/machines/T-0007', inputs: bareSlots },
  { name: 'machine-new', path: '/machines/new' },
  { name: 'machine-new-empty', path: '/machines/new', status: 422, form: { tag: 'T-0008' } },
  { name: 'part', path: '/parts/CRD-PEBBLE4?from=%2Fmachines%2FT-0007' },
  { name: 'part-saved', path: '/parts/CRD-FLINT8?from=%2Fquestions%2FQ-0007&saved' },
  { name: 'part-shared', path: '/parts/BRD-ANVIL', uses: shared },
  {
    name: 'part-wrong',
    path: '/parts/CRD-PEBBLE4',
    status: 422,
    form: { name: '', 'figure.lengthMm': '24 hands', 'figure.plugs': 'two', from: '/machines/T-0007' },
  },
  { name: 'part-unknown', path: '/parts/CRD-NONE', status: 404 },
  { name: 'machine-read', path: '/machines/T-0007?read' },
  { name: 'machine-correct', path: '/machines/T-0007/correct' },
  {
    name: 'machine-correct-wrong',
    path: '/machines/T-0007/correct',
    status: 422,
    form: { soldOn: '31.2.2026', ownerEmail: 'nobody' },
  },
  {
    name: 'machine-new-wrong',
    path: '/machines/new',
    status: 422,
    form: { tag: '', ownerEmail: 'nobody', 'limit.cardRoomMm': '3 hands', 'source.cardRoomMm': 'measured' },
  },
  { name: 'shelf', path: '/shelf' },
  { name: 'shelf-empty', path: '/shelf', uses: emptyUses },
  ...runStates(inputs, emptyUses),
  { name: 'rules', path: '/rules' },
  { name: 'api', path: '/api' },
  { name: 'import', path: '/import' },
  { name: 'import-nothing', path: '/import', status: 422, form: {} },
  { name: 'import-wrong', path: '/import', status: 422, form: { files: 'runs.csv' }, uses: importProblems },
  { name: 'import-done', path: '/import', form: { files: 'machines.csv' } },
  { name: 'message', path: '/messages/1' },
  {
    name: 'message-chat',
    path: '/messages/1',
    inputs: { ...inputs, customer: { id: 'CU-1', name: 'Imre Vale' } },
  },
  ...JOB_STATES,
  ...READING_STATES,
  ...LATER_STATES,
  ...FINDABLE_STATES,
  ...SHELF_STATES,
  ...WORK_STATES,
  ...FIND_STATES,
  ...OFFERS_STATES,
  ...ROUND_STATES,
  ...PLATFORMS_STATES,
  ...outboxStates(inputs),
  ...SHEET_STATES,
  ...SELL_STATES,
  ...FRAME_LOG_STATES,
  { name: 'not-found', path: '/nowhere', status: 404 },
  { name: 'question-unknown', path: '/questions/Q-9', status: 404 },
  {
    name: 'fault',
    path: '/shelf',
    status: 500,
    uses: {
      shelfList: async () => {
        throw new Error('canned fault with a secret in it')
      },
    },
  },
]
