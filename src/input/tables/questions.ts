import { PART_KINDS, type PartKind } from '../../core/part.ts'
import {
  ASKS,
  type Ask,
  CHANNELS,
  type Channel,
  COMPLAINTS,
  type Complaint,
  type Wanted,
  WISHES,
  type Wish,
} from '../../core/question.ts'
import {
  type Cell,
  date,
  key,
  line,
  lines,
  list,
  money,
  number,
  oneOf,
  type Pixels,
  pathKey,
  pixels,
} from '../cells.ts'
import { may, need, table } from '../csv/table.ts'
import { plainNumber } from '../numbers.ts'
import { Refusal } from '../refusal.ts'
import { fps } from './runs.ts'

const WANTED_ALLOWED = 'title@setting, with x2 behind it for double weight, such as harbor@1080-high x2'

const wanted: Cell<Wanted> = {
  allowed: WANTED_ALLOWED,
  read: (text, reading) => {
    const [, titleId, settingId, weight] = /^([^@\s]+)\s*@\s*([^@\s]+)(?:\s+x\s*(\S+))?$/.exec(text) ?? []
    if (titleId === undefined || settingId === undefined)
      return new Refusal('not allowed', `Write ${WANTED_ALLOWED}.`)
    if (weight === undefined) return { titleId, settingId, weight: 1 }
    const read = number(0.01, 100).read(weight, { ...reading, decimalMark: 'either' })
    return read instanceof Refusal ? read : { titleId, settingId, weight: read }
  },
  write: ({ titleId, settingId, weight }) =>
    `${titleId}@${settingId}${weight === 1 ? '' : ` x${plainNumber(weight)}`}`,
}

/** As much as a drive may hold; SSDs and hard drives are sold from some GB up to some 40 TB. */
export const spaceGB = number(1, 100_000, 'GB')

export type QuestionFields = {
  readonly id: string
  readonly machineTag: string
  readonly askedAt: string
  readonly words: string
  /** None for a kind of question that is about no title. */
  readonly wanted?: readonly Wanted[] | undefined
  readonly targetFps?: number | undefined
  readonly budgetMinor?: number | undefined
  readonly display?: Pixels | undefined
  readonly refreshHz?: number | undefined
  readonly wishes?: readonly Wish[] | undefined
  readonly spaceGB?: number | undefined
  readonly asks?: Ask | undefined
  readonly cameBy?: Channel | undefined
  readonly complaint?: Complaint | undefined
  readonly partKind?: PartKind | undefined
  readonly partWords?: string | undefined
  readonly partPriceMinor?: number | undefined
  readonly plannedSize?: Pixels | undefined
  readonly plannedHz?: number | undefined
}

export const questionTable = table<QuestionFields>()({
  name: 'questions',
  key: ['question'],
  columns: {
    question: need('id', pathKey),
    machine: need('machineTag', key),
    asked_on: need('askedAt', date),
    words: need('words', lines()),
    titles: may('wanted', list(wanted), []),
    target_fps: may('targetFps', fps),
    budget: may('budgetMinor', money),
    display_px: may('display', pixels),
    display_hz: may('refreshHz', number(20, 2000, 'Hz')),
    wishes: may('wishes', list(oneOf(WISHES))),
    space_gb: may('spaceGB', spaceGB),
    asks: may('asks', oneOf(ASKS)),
    came_by: may('cameBy', oneOf(CHANNELS)),
    complaint: may('complaint', oneOf(COMPLAINTS)),
    part_kind: may('partKind', oneOf(PART_KINDS)),
    part_words: may('partWords', line()),
    part_price: may('partPriceMinor', money),
    planned_px: may('plannedSize', pixels),
    planned_hz: may('plannedHz', number(20, 2000, 'Hz')),
  },
})
