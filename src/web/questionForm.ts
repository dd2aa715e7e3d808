import { IN_MIND_ID } from '../core/asked/inMind.ts'
import type { Language } from '../core/language.ts'
import { PART_KINDS, type Part, type PartKind } from '../core/part.ts'
import type { Display, PartInMind, Question, Wanted } from '../core/question.ts'
import { ASKS, type Ask, CHANNELS, COMPLAINTS, TARGET_FPS_DEFAULT, WISHES } from '../core/question.ts'
import type { MessageRead } from '../core/reading/message.ts'
import { key, line, lines, money, number, oneOf, type Reading, whole } from '../input/cells.ts'
import { spaceGB } from '../input/tables/questions.ts'
import { fps } from '../input/tables/runs.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import { neededFor } from '../uses/takeQuestion.ts'
import { fill } from '../words/say.ts'
import { wordsIn } from '../words/tables.ts'
import { sayFigure } from './figureSaid.ts'
import { type Typed, textOf } from './form.tsx'
import { figuresOfKind } from './partForm.ts'
import { type FieldReader, fieldReader } from './typed.ts'

/** Words are the headline of page and mail. */
const WORDS_MAX = 500
export const ROWS_MAX = 12
const ROWS_AT_FIRST = 3

/** How many title rows the form shows: those it had, three at least, and one more when asked. */
export function rowCount(typed: Typed, oneMore: boolean): number {
  const shown = Number(textOf(typed, 'rows') ?? ROWS_AT_FIRST)
  const rows = Number.isInteger(shown) ? Math.max(ROWS_AT_FIRST, shown) : ROWS_AT_FIRST
  return Math.min(ROWS_MAX, rows + (oneMore ? 1 : 0))
}

/** What was typed with these titles in its rows instead of those it had; all else stays. */
export function withTitles(typed: Typed, wanted: readonly Pick<Wanted, 'titleId' | 'settingId'>[]): Typed {
  if (wanted.length === 0) return typed
  const kept = [...typed].filter(([name]) => name !== 'rows' && !name.startsWith('wanted.'))
  return new Map([
    ...kept,
    ['rows', [String(wanted.length)]],
    ...wanted.flatMap(({ titleId, settingId }, n) => [
      [`wanted.${n}.title`, [titleId]] as const,
      [`wanted.${n}.setting`, [settingId]] as const,
    ]),
  ])
}

const LABELS: Record<string, string> = {
  machineTag: 'Machine',
  words: 'The owner’s own words',
  wanted: 'Titles the owner plays',
  targetFps: 'Wanted frame rate',
  budget: 'Budget',
  display: 'Display',
  widthPx: 'Display, width',
  heightPx: 'Display, height',
  refreshHz: 'Display, refresh rate',
  wishes: 'Wishes',
  spaceGB: 'How much space',
  asks: 'What is asked',
  cameBy: 'How it came',
  complaint: 'What bothers',
  partInMind: 'The part in mind',
  partKind: 'What the part is',
  partWords: 'The part, as the owner wrote it',
  partPrice: 'The owner’s price',
  message: 'The message',
  'planned.widthPx': 'Planned display, width',
  'planned.heightPx': 'Planned display, height',
  'planned.refreshHz': 'Planned display, refresh rate',
}

/** Figures that an owner can read off a seller's page, by kind; the shop's own form of a part has them all. */
export const IN_MIND_FIGURES: { readonly [K in PartKind]?: readonly string[] } = {
  processor: ['socket', 'generation', 'limitPowerW'],
  board: ['socket', 'chipset', 'form', 'memoryType'],
  memory: ['memoryType', 'modules', 'moduleGB', 'rateMts'],
  card: ['lengthMm', 'thicknessMm', 'boardPowerW', 'plugs', 'pcieGen', 'pcieLanes'],
  supply: ['form', 'ratedW', 'lengthMm', 'plugs'],
  case: ['cardRoomMm', 'coolerRoomMm'],
  cooler: ['heightMm', 'ratedW'],
  drive: ['form', 'interface', 'capacityGB'],
  fan: ['sizeMm'],
}

/** Words for the fields of this form, for the list of problems at its top. */
export function questionLabel(field: string): string | undefined {
  const row = /^wanted\.(\d+)\.(title|setting|weight)$/.exec(field)
  if (row === null) return LABELS[field] ?? figureLabel(field, 'en')
  return `Title ${Number(row[1]) + 1}${row[2] === 'title' ? '' : row[2] === 'weight' ? ', counts' : ', setting'}`
}

/** The same for an owner, in the language of their page. */
export function ownerQuestionLabel(field: string, language: Language): string | undefined {
  if (language === 'en') return questionLabel(field)
  const { labels } = wordsIn(language).ownerForm
  const [, n, what] = /^wanted\.(\d+)\.(title|setting)$/.exec(field) ?? []
  if (n !== undefined)
    return fill(what === 'title' ? labels.wantedTitle : labels.wantedSetting, { n: String(Number(n) + 1) })
  if (field === 'planned.widthPx') return labels.plannedWidth
  if (field === 'planned.heightPx') return labels.plannedHeight
  return field === 'planned.refreshHz' ? labels.plannedRefresh : figureLabel(field, language)
}

/** A figure of the part in mind, as its field is called. */
function figureLabel(field: string, language: Language): string | undefined {
  const [, kind, name] = /^inMind\.(\w+)\.(\w+)$/.exec(field) ?? []
  const known = PART_KINDS.find((one) => one === kind)
  const figure = known && figuresOfKind(known).find((one) => one.field === name)
  return figure && sayFigure(figure, language).label
}

/** Kinds that go without titles: one that was named without its setting is left out, not asked about. */
const WITHOUT_TITLES: ReadonlySet<Ask> = new Set(['something is wrong', 'next system version'])

function wantedOf(typed: Typed, { need, read, problems }: FieldReader, asks: Ask): Question['wanted'] {
  const wanted: Wanted[] = []
  for (let n = 0; n < ROWS_MAX; n++) {
    const titleId = textOf(typed, `wanted.${n}.title`)
    if (titleId === undefined) continue
    if (WITHOUT_TITLES.has(asks) && textOf(typed, `wanted.${n}.setting`) === undefined) continue
    const next = 'Choose the setting this title is played at; frame rates compare at one setting alone.'
    const settingId = need(`wanted.${n}.setting`, key, next)
    const weight = read(`wanted.${n}.weight`, number(0.01, 100)) ?? 1
    if (settingId === undefined) continue
    if (wanted.some((w) => w.titleId === titleId && w.settingId === settingId)) {
      const twice = 'This title stands twice at one setting. Take one out, or let it count more.'
      problems.push({ code: 'duplicate', field: `wanted.${n}.title`, next: twice })
    }
    wanted.push({ titleId, settingId, weight })
  }
  return wanted
}

function displayFrom({ read }: FieldReader, prefix: '' | 'planned.'): Display {
  return {
    widthPx: read(`${prefix}widthPx`, whole(320, 16_000, 'pixels')),
    heightPx: read(`${prefix}heightPx`, whole(200, 16_000, 'pixels')),
    refreshHz: read(`${prefix}refreshHz`, number(20, 2000, 'Hz')),
  }
}

const isGiven = (display: Display): boolean => Object.values(display).some((figure) => figure !== undefined)

/** The part in mind as typed, with the figures of its kind alone; undefined when nothing names it. */
function partFrom({ read, problems }: FieldReader): PartInMind | undefined {
  const words = read('partWords', line(PART_WORDS_MAX))
  const priceMinor = read('partPrice', money)
  const kind = read('partKind', oneOf(PART_KINDS)) ?? 'card'
  if (words === undefined) {
    if (priceMinor !== undefined && !problems.some((p) => p.field === 'partWords'))
      problems.push({ code: 'missing', field: 'partWords', next: 'Write which part costs that.' })
    return undefined
  }
  const wanted: readonly string[] = IN_MIND_FIGURES[kind] ?? []
  const figures = figuresOfKind(kind)
    .filter(({ field }) => wanted.includes(field))
    .flatMap(({ field, cell }) => {
      const value = read(`inMind.${kind}.${field}`, cell)
      return value === undefined ? [] : [[field, value] as const]
    })
  // The table of a kind fills that kind's fields, which the compiler does not follow through an object of entries.
  const part = { kind, id: IN_MIND_ID, name: words, ...Object.fromEntries(figures) } as Part
  return {
    ...{ kind, words },
    ...(priceMinor !== undefined && { priceMinor }),
    ...(figures.length > 0 && { part }),
  }
}

/** The owner's words for a part. */
export const PART_WORDS_MAX = 120

/** A question as its fields give it, apart from whose machine it is about and how it came. */
export type AskedFields = Omit<Question, 'id' | 'askedAt' | 'machineTag' | 'cameBy'>

/** Reads the fields of a question, of the shop's form or of an owner's page; problems go onto the reader's list. */
export function askedFields(typed: Typed, reader: FieldReader, noWords: string): AskedFields {
  const { read, need } = reader
  const asks = read('asks', oneOf(ASKS)) ?? ASKS[0]
  const words = need('words', lines(WORDS_MAX), noWords) ?? ''
  const wanted = wantedOf(typed, reader, asks)
  const targetFps = read('targetFps', fps) ?? TARGET_FPS_DEFAULT
  const budgetMinor = read('budget', money)
  const space = read('spaceGB', spaceGB)
  const display = displayFrom(reader, '')
  const planned = displayFrom(reader, 'planned.')
  // What stands in the fields of another kind was typed before the kind was changed: it is not asked.
  const partInMind = asks === 'can I put this in' ? partFrom(reader) : undefined
  const complaint = asks === 'something is wrong' ? read('complaint', oneOf(COMPLAINTS)) : undefined
  const chosen = new Set(typed.get('wishes') ?? [])
  return {
    ...{ words, wanted, display, targetFps, budgetMinor, asks, partInMind, complaint },
    wishes: WISHES.filter((wish) => chosen.has(wish)),
    spaceGB: space,
    plannedDisplay: isGiven(planned) ? planned : undefined,
  }
}

/** The question as typed, or everything that is wrong with it. Names are checked where they are kept. */
export function newQuestionOf(typed: Typed, reading: Reading): Result<Omit<Question, 'id' | 'askedAt'>> {
  const reader = fieldReader(typed, reading)
  const machineTag = reader.need(
    'machineTag',
    line(60),
    'Give the tag on the case label, such as M-0042, or the owner’s name.',
  )
  const fields = askedFields(typed, reader, 'Write down what the owner asked, in their own words.')
  const cameBy = reader.read('cameBy', oneOf(CHANNELS)) ?? 'mail'
  const { problems } = reader
  const lacking = neededFor({ ...fields, machineTag: machineTag ?? '' }).filter(
    ({ field }) => !isToldAlready(field, problems),
  )
  // What is lacking alone is found again where the machine is looked up, so that both are told at once.
  if (problems.length > 0 || machineTag === undefined) return failed(...problems, ...lacking)
  return ok({ ...fields, machineTag, cameBy })
}

/** Something about that field is wrong already, so that it is missing goes without saying. */
export const isToldAlready = (field: string, problems: readonly Problem[]): boolean =>
  problems.some((p) => p.field === field || p.field.startsWith(`${field}.`) || isOfPart(field, p))

const isOfPart = (field: string, { field: other }: Problem): boolean =>
  field === 'partInMind' && (other.startsWith('part') || other.startsWith('inMind.'))

/** An amount as a form takes it: "120", "120.50". */
export const minorTextOf =
  (digits: number) =>
  (minor: number): string =>
    (minor / 10 ** digits).toFixed(digits).replace(/\.0+$/, '')

/** The fields that a pasted message fills; what somebody typed there already stays. */
export function filledFrom(
  typed: Typed,
  message: string,
  read: MessageRead,
  minorText: (minor: number) => string,
): Typed {
  const filled = new Map(typed)
  const put = (name: string, value: string | number | undefined) => {
    if (value !== undefined && textOf(typed, name) === undefined) filled.set(name, [String(value)])
  }
  const part = read.partInMind?.value
  put('machineTag', read.tag?.value)
  put('words', message.trim().slice(0, WORDS_MAX))
  put('targetFps', read.targetFps?.value)
  put('budget', read.budgetMinor && minorText(read.budgetMinor.value))
  put('widthPx', read.size?.value.widthPx)
  put('heightPx', read.size?.value.heightPx)
  put('refreshHz', read.refreshHz?.value)
  put('partWords', part?.words)
  put('partPrice', part?.priceMinor === undefined ? undefined : minorText(part.priceMinor))
  put('complaint', read.complaint?.value)
  // These two always stand at something: what was read counts.
  if (part !== undefined) filled.set('partKind', [part.kind])
  const asks =
    read.asks?.value ?? (part !== undefined ? 'can I put this in' : read.complaint && 'something is wrong')
  if (asks !== undefined) filled.set('asks', [asks])
  read.titleIds.slice(0, ROWS_MAX).forEach(({ value }, n) => {
    put(`wanted.${n}.title`, value)
  })
  filled.set('rows', [String(Math.max(ROWS_AT_FIRST, read.titleIds.length))])
  filled.delete('message')
  return filled
}
