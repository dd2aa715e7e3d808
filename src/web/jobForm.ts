import { CONDITIONS } from '../core/shop.ts'
import { date, line, lines, money, oneOf, signedMoney, timeOfDay, whole } from '../input/cells.ts'
import { dayOf, instantOf } from '../input/dates.ts'
import { fps, lowFps, versionName } from '../input/tables/runs.ts'
import type { Booking } from '../uses/jobs/bookJob.ts'
import type { MissNotes } from '../uses/jobs/closeJob.ts'
import type { StepSaid } from '../uses/jobs/finishFitting.ts'
import type { Decision } from '../uses/jobs/partOut.ts'
import type { Measured } from '../uses/jobs/recordRun.ts'
import type { Reported } from '../uses/jobs/reportAtHome.ts'
import { JOB_EN } from '../words/en/job.ts'
import { type Typed, textOf } from './form.tsx'
import type { FieldReader } from './typed.ts'

/** When nobody says a time: shops are open by then. */
export const USUAL_TIME = '10:00'

const LABELS: Readonly<Record<string, string>> = {
  bookedDay: 'Day',
  bookedTime: 'Time',
  deposit: 'Deposit',
  fittedBy: 'Who fits it',
  title: 'Title and setting',
  titleVersion: 'Version of the title',
  averageFps: 'Average',
  low1Fps: '1% low',
  firmware: 'Firmware now',
  settledMinor: 'Price in all',
  parts: 'What came out',
  missChecked: JOB_EN.miss.checked,
  missChoices: JOB_EN.miss.choices,
  remindDay: 'Look at it again on',
  reportTitle: 'Title and setting the owner ran',
  reportAverageFps: 'Average the owner reads',
  reportLow1Fps: '1% low the owner reads',
  because: 'Why, if it matters',
  callOffBecause: 'Why, and what becomes of a deposit',
  note: 'Note',
  runNote: 'Note',
  reportNote: 'How it was measured',
  ownerName: 'New owner',
  ownerEmail: 'E-mail of the new owner',
}
const OUT_LABELS: Readonly<Record<string, string>> = {
  condition: 'Condition',
  price: 'Price on the shelf',
  credit: 'What the owner gets for it',
  warrantyMonths: 'Warranty for its next owner',
  warrantyEndsWith: 'What ends that warranty',
  outNote: 'Note',
}

const STEP_LABELS: Readonly<Record<string, string>> = {
  step: 'A step without a tick',
  why: 'Why it was not done',
}

/** The words of a field; those of parts that came out carry the part's number behind a point. */
export const jobLabel = (field: string): string | undefined =>
  LABELS[field] ?? OUT_LABELS[field.split('.')[0] ?? ''] ?? STEP_LABELS[field.split('.')[0] ?? '']

/** What was said of each step without a tick, by its place; a step of which nothing was said is not there. */
export function stepsSaid(reader: FieldReader, typed: Typed): ReadonlyMap<number, StepSaid> {
  const said = [...typed.keys()].flatMap((name): [number, StepSaid][] => {
    const position = /^step\.(\d{1,4})$/.exec(name)?.[1]
    if (position === undefined) return []
    const answer = textOf(typed, name)
    if (answer === 'done') return [[Number(position), { done: true }]]
    if (answer !== 'not done') return []
    return [[Number(position), { done: false, because: reader.read(`why.${position}`, line()) }]]
  })
  return new Map(said)
}

export const noteOf = (reader: FieldReader, field: string): string | undefined => reader.read(field, line())

/** Day and time in the shop's zone; undefined without a day. A time alone says nothing. */
export function bookingOf(reader: FieldReader, timeZone: string, needed: boolean): Partial<Booking> {
  const noon = needed
    ? reader.need('bookedDay', date, 'Say which day, such as 2026-03-04.')
    : reader.read('bookedDay', date)
  const time = reader.read('bookedTime', timeOfDay)
  const depositMinor = reader.read('deposit', money)
  if (noon === undefined) {
    if (time !== undefined && !needed)
      reader.problems.push({ code: 'missing', field: 'bookedDay', next: 'Say which day as well.' })
    return { depositMinor }
  }
  return { bookedFor: instantOf(dayOf(noon, timeZone), time ?? USUAL_TIME, timeZone), depositMinor }
}

/** A promised title with its setting, as the lists offer them. */
const titleOf = (reader: FieldReader, field: string): Pick<Measured, 'titleId' | 'settingId'> => {
  const chosen = reader.need(field, line(200), 'Choose a title.') ?? ''
  const [titleId = '', settingId = ''] = chosen.split('@')
  return { titleId, settingId }
}

/** @param newest the version of a title that people play now; undefined where nobody lists one */
export function measuredOf(
  reader: FieldReader,
  newest: (titleId: string) => string | undefined,
): Measured | undefined {
  const { titleId, settingId } = titleOf(reader, 'title')
  const known = newest(titleId)
  const next = 'Give the version of the title: frame rates of two versions are not compared.'
  const titleVersion =
    known === undefined
      ? reader.need('titleVersion', versionName, next)
      : (reader.read('titleVersion', versionName) ?? known)
  const averageFps = reader.need('averageFps', fps, 'Give the average frame rate.')
  const low1Fps = reader.read('low1Fps', lowFps)
  const note = noteOf(reader, 'runNote')
  if (titleVersion === undefined || averageFps === undefined || reader.problems.length > 0) return undefined
  return { titleId, settingId, titleVersion, averageFps, low1Fps, note }
}

export function reportedOf(reader: FieldReader): Reported | undefined {
  const { titleId, settingId } = titleOf(reader, 'reportTitle')
  const averageFps = reader.need('reportAverageFps', fps, 'Give the average frame rate the owner reads.')
  const low1Fps = reader.read('reportLow1Fps', lowFps)
  const note = noteOf(reader, 'reportNote')
  return averageFps === undefined || reader.problems.length > 0
    ? undefined
    : { titleId, settingId, averageFps, low1Fps, note }
}

export const settledOf = (reader: FieldReader): number | undefined =>
  reader.need('settledMinor', signedMoney, 'Say what was paid in all, the deposit included.')

/** What was checked fits into one sentence of the mail; choices stand below each other. */
export const missOf = (reader: FieldReader): MissNotes => ({
  checked: reader.read('missChecked', line(300)),
  choices: reader.read('missChoices', lines(1000)),
})

/** What a pressed button says about a part that came out; its fields are `<name>.<id>`. */
export function decisionOf(reader: FieldReader, typed: Typed, id: string): Decision | undefined {
  const pressed = textOf(typed, 'do')
  const note = noteOf(reader, `outNote.${id}`)
  const credit = () => reader.read(`credit.${id}`, money) ?? 0
  if (pressed === 'to test') return { outcome: 'to test' }
  if (pressed === 'given back') return { outcome: 'given back', note }
  if (pressed === 'scrapped') return { outcome: 'scrapped', creditMinor: credit(), note }
  const condition = reader.read(`condition.${id}`, oneOf(CONDITIONS)) ?? 'used'
  const priceMinor = reader.need(`price.${id}`, money, 'Give the price it is sold for.')
  const warrantyMonths = reader.read(`warrantyMonths.${id}`, whole(0, 240, 'months'))
  const warrantyEndsWith = noteOf(reader, `warrantyEndsWith.${id}`)
  const creditMinor = credit()
  return priceMinor === undefined
    ? undefined
    : {
        outcome: 'on the shelf',
        ...{ condition, priceMinor, creditMinor, warrantyMonths, warrantyEndsWith, note },
      }
}
