import type { Answer, AnswerInputs, Customer } from '../../src/core/answer.ts'
import { partsOf } from '../../src/core/build.ts'
import { computeAnswer, modelFor } from '../../src/core/computeAnswer.ts'
import { propose } from '../../src/core/firmwareTable/propose.ts'
import { limitsOf } from '../../src/core/limits/resolve.ts'
import type { HistoryDay } from '../../src/core/machineHistory.ts'
import { partFromWords } from '../../src/core/naming/partFromWords.ts'
import { gainAsksOf } from '../../src/core/whyOption.ts'
import { renderAnswer } from '../../src/mail/render.ts'
import { failed, ok, type Result } from '../../src/problem.ts'
import type { Day } from '../../src/uses/day.ts'
import type { WhyView } from '../../src/uses/gain/whyNumber.ts'
import { NO_LINK } from '../../src/uses/ownerLinks.ts'
import type { QuestionLine, Ready } from '../../src/uses/views.ts'
import type { OwnerUses, WebUses } from '../../src/web/webUses.ts'
import { chatTextOf, letterOf } from '../../src/words/answer.ts'
import { cannedAccess } from './cannedAccess.ts'
import { cannedFind } from './cannedFind.ts'
import { cannedFindableUses } from './cannedFindable.ts'
import { cannedFrameLogUses } from './cannedFrameLogs.ts'
import { cannedJobUses, NO_JOBS } from './cannedJobs.ts'
import { cannedKeeping } from './cannedKeeping.ts'
import { cannedMeasure } from './cannedMeasure.ts'
import { cannedOffersUses } from './cannedOffers.ts'
import { cannedOutboxUses } from './cannedOutbox.ts'
import { cannedCustomerUses, cannedPersonUses, personWithout } from './cannedPerson.ts'
import { cannedPlatformsUses, NO_PLANS } from './cannedPlatforms.ts'
import { cannedReadingUses } from './cannedReading.ts'
import { cannedRoundUses } from './cannedRounds.ts'
import { cannedRunUses, runsIn } from './cannedRuns.ts'
import { cannedSellUses } from './cannedSell.ts'
import { cannedSheetUses, TOKEN } from './cannedSheet.ts'
import { cannedShelfUses } from './cannedShelf.ts'
import { inputs, machine, NOW, owner, parts, runs, settings, shelf, shop, titles } from './cannedShop.ts'
import { cannedWorkUses } from './cannedWork.ts'

const notFound = (what: string, got: string) =>
  failed({
    code: 'not found',
    field: what,
    got,
    next: `There is no ${what} with this name. Look for it in the list.`,
  })

/** A day with nothing to do but questions. */
export const NOTHING_TODAY: Day = {
  ...{ due: [], bench: [], untold: [], mails: { drafted: 0, held: 0, failed: 0 }, odd: 0, stale: 0 },
  ...{ warranties: [], parts: [], toSettle: [], dealsOver: [] },
}

/** A questions page with no question on it. */
export const NO_QUESTIONS = {
  ...{ resumed: [], due: [], waiting: [], asked: [], written: [] },
  over: { answered: 0, calledOff: 0 },
} as const

/** What stands behind an option's number, by the model that the answer carries. */
function whyIn(answer: Answer, optionId: string | undefined): Result<WhyView> {
  const { ranked, withoutNumber, needsAFact } = answer.ranking
  const option = [...ranked, ...withoutNumber, ...needsAFact].find(({ id }) => id === optionId)
  if (option === undefined) return notFound('option', optionId ?? '')
  const model = modelFor(answer.inputs)
  const whys = gainAsksOf(answer.inputs, option).map((ask) => model.why?.(ask))
  return ok({ answer, option, whys, parts: answer.inputs.parts })
}

const READY: Ready = { shop: true, machines: true, titles: true, shelf: true, runs: true }

/** Computed once for the same inputs: it is dear and never changes. */
function answerTo(inputs: AnswerInputs): Answer {
  const answer = answers.get(inputs) ?? computeAnswer(inputs, NOW)
  answers.set(inputs, answer)
  return answer
}
const answers = new WeakMap<AnswerInputs, Answer>()

export type Canned = { readonly inputs?: AnswerInputs; readonly uses?: Partial<WebUses> }

/**
 * The uses of a shop that never changes: one machine, one waiting question, one answered, one message (`1`).
 * Answers and mails are computed by the real core and the real templates; nothing is stored. `calls` notes what the
 * pages handed over.
 */
export function cannedUses(canned: Canned = {}): {
  uses: WebUses
  calls: [name: string, ...given: unknown[]][]
} {
  const from = canned.inputs ?? inputs
  const answer = answerTo(from)
  const { question, customer } = from
  const tag = from.machine.tag
  const calls: [string, ...unknown[]][] = []
  const line: QuestionLine = {
    id: question.id,
    machineTag: tag,
    words: question.words,
    askedAt: question.askedAt,
    customerName: customer?.name,
    targetFps: question.targetFps,
    budgetMinor: question.budgetMinor,
    asks: question.asks ?? 'what can I do',
    state: 'new',
    openLimits: [],
    arrivedLimits: [],
    drafted: false,
  }
  const answered: QuestionLine = {
    ...line,
    id: 'Q-0002',
    words: 'Is a second stick worth it?',
    answerId: '1',
    answeredAt: '2026-05-02T15:00:00.000Z',
    state: 'answered',
    drafted: true,
  }
  const machineLine = {
    tag,
    ownerName: customer?.name,
    soldAt: '2025-09-02T17:00:00.000Z',
    processorName: from.machine.build.processor?.name,
    cardName: from.machine.build.card?.name,
    questions: 2,
  }
  const uses: WebUses = {
    now: () => NOW,
    ...cannedMeasure(),
    shop: async () => from.shop,
    questions: async () => ({
      ...NO_QUESTIONS,
      ...{ waiting: [line], written: [answered], emptyShop: false, ready: READY },
      over: { answered: 1, calledOff: 0 },
    }),
    questionList: async ({ states, query = '', offset = 0 }) => {
      const all = [line, answered].filter(
        ({ state, words }) => states.includes(state) && words.toLowerCase().includes(query.toLowerCase()),
      )
      const counts = { new: 1, 'waiting for the owner': 0, answered: 1, 'called off': 0 }
      return { lines: all.slice(offset), total: all.length, counts }
    },
    ...cannedFind,
    tags: async () => [tag],
    day: async () => NOTHING_TODAY,
    known: async () => ({
      machines: [machineLine],
      titles,
      settings,
      parts,
      nextTag: 'T-0008',
      ready: READY,
    }),
    bestLines: async () =>
      new Map([
        [
          'Q-0007',
          { told: 'The Flint 8G graphics card gets you from 41 to 68 FPS for $129.', isEarlier: false },
        ],
      ]),
    titlesTested: async (typed) =>
      typed === tag
        ? ok({
            ...{ tag, of: 'machine' },
            wanted: [
              { titleId: 'lantern', settingId: '1080-high' },
              { titleId: 'hollow', settingId: '1080-high' },
            ],
          })
        : notFound('machineTag', typed),
    takeQuestion: async (taken) => {
      calls.push(['takeQuestion', taken])
      return taken.machineTag === tag ? ok({ id: 'Q-0008' }) : notFound('machineTag', taken.machineTag)
    },
    formLedTo: async () => undefined,
    rememberForm: async () => {},
    sayModel: async (id, said) => {
      calls.push(['sayModel', id, said])
      return ok({ id })
    },
    nameRecord: async (id, partId) => {
      calls.push(['nameRecord', id, partId])
      return ok({ id })
    },
    changeQuestion: async (id, change, seen) => {
      calls.push(['changeQuestion', id, change, seen])
      return ok({ id })
    },
    describePartInMind: async (id, part) => {
      calls.push(['describePartInMind', id, part])
      return ok({ id })
    },
    questionView: async (id) =>
      id === question.id
        ? ok({
            answer,
            earlier: [{ answerId: '1', at: '2026-06-11T15:00:00.000Z', messageId: '1' }],
            ...{ state: 'new' as const, steps: [], edits: [], requests: [], photos: [] },
          })
        : notFound('question', id),
    storedAnswer: async (id) => (id === '1' ? ok({ answer, messageId: '1' }) : notFound('answer', id)),
    whyOfQuestion: async (id, optionId) =>
      id === question.id ? whyIn(answer, optionId) : notFound('question', id),
    whyOfAnswer: async (id, optionId) => (id === '1' ? whyIn(answer, optionId) : notFound('answer', id)),
    fitUnderWay: async () => undefined,
    prepareMessage: async (id, pickId) => {
      calls.push(['prepareMessage', id, pickId])
      return id === question.id ? ok({ messageId: '1' }) : notFound('question', id)
    },
    message: async (id) => {
      if (id !== '1') return notFound('message', id)
      const edits = { opening: 'Good to hear from you.' }
      const mail = await renderAnswer(letterOf(answer, edits))
      return ok({
        id,
        answerId: '1',
        answer,
        edits,
        ...mail,
        chatText: chatTextOf(answer, edits),
        isChangedSince: false,
      })
    },
    saveMessage: async (id, edits) => {
      calls.push(['saveMessage', id, edits])
      return id === '1' ? ok({ messageId: id }) : notFound('message', id)
    },
    messageEml: async (id) =>
      id === '1'
        ? ok({
            fileName: 'T-0007 answer.eml',
            bytes: new TextEncoder().encode('Subject: canned\r\n\r\nbody\r\n'),
          })
        : notFound('message', id),
    machines: async ({ query = '' }) => {
      const isFound = `${tag} ${customer?.name ?? ''}`.toLowerCase().includes(query.toLowerCase())
      return { lines: isFound ? [machineLine] : [], total: isFound ? 1 : 0 }
    },
    machine: async (asked) => {
      if (asked !== tag) return notFound('machine', asked)
      const { build, claims } = from.machine
      const stays = partsOf(build).map((part) => ({ part, fittedAt: '2025-09-02T17:00:00.000Z' }))
      return ok({
        machine: from.machine,
        limits: limitsOf(build, claims),
        readFromNames: [
          {
            kind: 'supply',
            name: 'grey box 550 W',
            understood: partFromWords('supply', 'x', 'grey box 550 W').understood,
          },
        ],
        owner: customer,
        soldAt: '2025-09-02T17:00:00.000Z',
        note: 'left with the side panel on',
        history: [
          ...stays.map((stay, i) => (i === 2 ? { ...stay, removedAt: '2026-01-05T17:00:00.000Z' } : stay)),
        ],
        runs: from.runs.filter((run) => run.machineTag === tag),
        ranWith: from.parts,
        questions: [line, answered],
        ...{ requests: [], photos: [], links: [], ownerReadings: [] },
        titles: from.titles,
        settings: from.settings,
      })
    },
    addMachine: async (added) => {
      calls.push(['addMachine', added])
      return added.tag === tag
        ? failed({ code: 'duplicate', field: 'tag', got: tag, next: 'Another machine has this tag.' })
        : ok({ tag: added.tag, newParts: [] })
    },
    correctMachine: async (asked, correction) => {
      calls.push(['correctMachine', asked, correction])
      return asked === tag ? ok({ tag, newParts: [] }) : notFound('machine', asked)
    },
    recordLimit: async (asked, claim) => {
      calls.push(['recordLimit', asked, claim])
      return asked === tag ? ok({ tag }) : notFound('machine', asked)
    },
    part: async (id) => {
      const part = [...partsOf(from.machine.build), ...from.parts].find((p) => p.id === id)
      if (part === undefined) return notFound('part', id)
      const isIn = partsOf(from.machine.build).some((p) => p.id === id)
      return ok({
        part,
        fittedIn: isIn ? [tag] : [],
        shelf: from.shelf.filter((item) => item.partId === id),
      })
    },
    describePart: async (part) => {
      calls.push(['describePart', part])
      return ok({ id: part.id })
    },
    shelfList: async ({ query = '', offset, most }) => {
      const found = (await uses.shelf()).items.filter(({ part }) =>
        part.name.toLowerCase().includes(query.toLowerCase()),
      )
      return { lines: found.slice(offset, offset + most), total: found.length, offset }
    },
    shelf: async () => ({
      items: from.shelf.flatMap((item) => {
        const part = from.parts.find((p) => p.id === item.partId)
        const isHeld = item.id === 'S-5'
        const putAside = isHeld ? [{ jobId: 'J-0001', quantity: 1 }] : []
        const free = { ...item, quantity: item.quantity - putAside.length }
        return part === undefined ? [] : [{ item: free, part, standing: item.quantity, putAside }]
      }),
    }),
    describeShop: async (shop) => {
      calls.push(['describeShop', shop])
      return ok(shop)
    },
    exportTable: async (name) =>
      name === 'shelf' ? ok({ name, rows: 0, text: 'item\r\n' }) : notFound('table', name),
    importFiles: async (files) => {
      calls.push(['importFiles', files])
      return ok({ tables: files.map((f) => ({ file: f.name, added: 3, changed: 1, unchanged: 0 })) })
    },
    callOffQuestion: async (id, because) => {
      calls.push(['callOffQuestion', id, because])
      return ok({ id })
    },
    takeUpQuestion: async (id) => {
      calls.push(['takeUpQuestion', id])
      return ok({ id })
    },
    remindOfQuestion: async (id, remindAt) => {
      calls.push(['remindOfQuestion', id, remindAt])
      return ok({ id })
    },
    toldOwner: async (messageId) => {
      calls.push(['toldOwner', messageId])
      return ok({ messageId })
    },
    askOwner: async (request) => {
      calls.push(['askOwner', request])
      return ok({ requestId: '1', tag })
    },
    withdrawRequest: async (id) => {
      calls.push(['withdrawRequest', id])
      return ok({ tag })
    },
    addPhoto: async (asked, photo) => {
      calls.push(['addPhoto', asked, photo.bytes.length, photo.requestId])
      return ok({ tag, photoId: '1' })
    },
    photo: async (id) =>
      id === '1' ? ok({ mediaType: 'image/png', bytes: DOT_PNG }) : notFound('photo', id),
    makeOwnerLink: async () => ok({ tag, token: TOKEN, expiresAt: '2026-09-10T15:00:00.000Z' }),
    takeLinksBack: async (asked) => {
      calls.push(['takeLinksBack', asked])
      return ok({ tag })
    },
    ...ownerUses(from, calls),
    ...cannedRunUses(from, calls),
    ...cannedFrameLogUses((...call) => calls.push(call)),
    ...cannedJobUses(from, calls),
    ...cannedSheetUses(from, calls, NOW),
    ...cannedSellUses(from, calls, NOW),
    ...cannedCustomerUses(from, calls),
    ...cannedReadingUses(from, calls),
    ...cannedFindableUses(from, calls),
    ...cannedShelfUses(from, calls),
    ...cannedWorkUses(from, calls),
    ...cannedOffersUses(from, calls),
    ...cannedRoundUses(from, calls),
    ...cannedPlatformsUses(calls),
    ...cannedOutboxUses(from, calls),
    ...cannedAccess,
    ...cannedKeeping,
    // What is looked at in passing says what a look says.
    ...(canned.uses?.oddRuns && { oddRunsNow: canned.uses.oddRuns }),
    ...canned.uses,
  }
  return { uses, calls }
}

export { TOKEN }

/** One grey dot. */
export const DOT_PNG = Uint8Array.from(
  Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
    'base64',
  ),
)

/** A machine that was sold, got a card since with a promise that was kept, and newer firmware. */
const cannedHistory = ({ machine, question }: AnswerInputs): HistoryDay[] => {
  const [first, second] = partsOf(machine.build).map(({ kind, name }) => ({ kind, name }))
  if (first === undefined || second === undefined) throw new Error('the canned machine has parts')
  const promised = {
    ...{ titleId: question.wanted[0]?.titleId ?? '', settingId: question.wanted[0]?.settingId ?? '' },
    ...{ beforeFps: 41, afterFps: 66, afterFpsLow: 62, afterFpsHigh: 71 },
  }
  const kept = {
    promised,
    outcome: 'kept' as const,
    measuredFps: 67,
    leastFps: 61,
    mostFps: 72,
    runIds: ['1'],
  }
  const day = { partsIn: [], partsOut: [], limits: [], jobs: [], isRead: false }
  return [
    { ...day, day: '2026-04-02', limits: [{ key: 'firmware', value: '4.60', before: '3.20' }], isRead: true },
    {
      ...{ ...day, day: '2026-03-01', partsIn: [first], partsOut: [second] },
      jobs: [{ jobId: 'J-0001', fittedAt: NOW, works: ['firmware update'], kept: [kept], targetFps: 60 }],
    },
    { ...day, day: '2025-09-02', sold: [first, second] },
  ]
}

const ownerUses = (from: AnswerInputs, calls: [string, ...unknown[]][]): OwnerUses => {
  const behind = <T>(token: string, value: T): Result<T> => (token === TOKEN ? ok(value) : failed(NO_LINK))
  return {
    linkHolds: async (token) => token === TOKEN,
    ownerPage: async (token) =>
      behind(token, {
        shop: from.shop,
        tag: from.machine.tag,
        fitted: partsOf(from.machine.build).map(({ kind, name }) => ({ kind, name })),
        limits: limitsOf(from.machine.build, from.machine.claims),
        requests: [{ id: '1', limitKey: 'coolerRoomMm' as const, photos: 0 }],
        questions: [
          { words: from.question.words, askedAt: from.question.askedAt, state: 'new' as const, photos: 2 },
          {
            words: 'Is a second stick worth it?',
            askedAt: '2026-05-01T15:00:00.000Z',
            ...{ state: 'answered' as const, photos: 0 },
            answerText: chatTextOf(computeAnswer(from, NOW)),
            toldAt: NOW,
          },
        ],
        jobs: [{ jobId: 'J-0001', titles: from.question.wanted }],
        ...{ home: [], history: cannedHistory(from), language: 'en' as const },
        titles: from.titles,
        settings: from.settings,
        expiresAt: '2026-09-10T15:00:00.000Z',
        person: personWithout,
      }),
    ...cannedPersonUses(from, calls, (token) => token === TOKEN),
    ownerReadingPreview: async (token, table) => {
      const { build, claims } = from.machine
      return behind(token, propose(table, { build, limits: limitsOf(build, claims) }, from.parts))
    },
    ownerSendsReading: async (token, table) => {
      calls.push(['ownerSendsReading', table])
      return behind(token, { tag: from.machine.tag })
    },
    ownerAsks: async (token, question, photos = []) => {
      calls.push(['ownerAsks', question, ...photos.map(({ length }) => length)])
      return behind(token, { id: 'Q-0009' })
    },
    ownerLimit: async (token, requestId, claim) => {
      calls.push(['ownerLimit', requestId, claim])
      return behind(token, { limitKey: claim.key })
    },
    ownerPhoto: async (token, requestId, bytes) => {
      calls.push(['ownerPhoto', requestId, bytes.length])
      return behind(token, { photoId: '1' })
    },
    ownerReports: async (token, jobId, reported) => {
      calls.push(['ownerReports', jobId, reported])
      return behind(token, { jobId })
    },
  }
}

const BARE: Ready = { shop: false, machines: false, titles: false, shelf: false, runs: false }

/** A shop that holds nothing yet. */
export const emptyUses: Partial<WebUses> = {
  questions: async () => ({ ...NO_QUESTIONS, emptyShop: true, ready: BARE }),
  known: async () => ({ machines: [], titles: [], settings: [], parts: [], nextTag: 'M-0001', ready: BARE }),
  machines: async () => ({ lines: [], total: 0 }),
  jobs: async () => NO_JOBS,
  shelf: async () => ({ items: [] }),
  shelfList: async () => ({ lines: [], total: 0, offset: 0 }),
  findable: async () => ({ lines: [] }),
  matchings: async () => ({ choosable: [], matchings: [], demands: [] }),
  ...NO_PLANS,
  runs: runsIn([], { parts: [], titles: [], settings: [] }),
}

/** Markup in every text that people can bring in; a page that prints one of them unescaped would show an element. */
export const HOSTILE = `"><img src=x onerror=alert(1)><script>alert('1')</script>&amp;`

const hostilePart = <P extends { readonly name: string }>(part: P): P => ({
  ...part,
  name: `${HOSTILE}${part.name}`,
})

export const hostileOwner: Customer = { ...owner, name: HOSTILE }

export const hostileInputs: AnswerInputs = {
  shop: { ...shop, name: HOSTILE, builder: HOSTILE, address: HOSTILE },
  customer: hostileOwner,
  machine: {
    ...machine,
    build: {
      ...machine.build,
      memory: machine.build.memory.map(hostilePart),
      ...(machine.build.processor && { processor: hostilePart(machine.build.processor) }),
      ...(machine.build.card && { card: hostilePart(machine.build.card) }),
    },
    claims: machine.claims.map((claim) => ({ ...claim, note: HOSTILE })),
  },
  question: { ...inputs.question, words: HOSTILE },
  parts: parts.map(hostilePart),
  shelf: shelf.map((item) => ({ ...item, note: HOSTILE })),
  work: inputs.work,
  tradeIns: inputs.tradeIns,
  titles: titles.map((title) => ({ ...title, name: HOSTILE })),
  settings: settings.map((setting) => ({ ...setting, preset: HOSTILE })),
  runs: runs.map((run) => ({
    ...{ ...run, titleVersion: HOSTILE, note: HOSTILE, scene: HOSTILE, driverVersion: HOSTILE },
  })),
}
