import type { WantedRun } from '../core/gain/gain.ts'
import type { PartKind } from '../core/part.ts'
import type { Reading } from '../input/cells.ts'
import type { FittedFields } from '../input/tables/runs.ts'
import type { RunSheet } from '../uses/runs/runSheet.ts'
import { type Typed, textOf } from './form.tsx'
import { fittedFrom, sheetRows } from './runForm.ts'
import { fieldReader } from './typed.ts'

/** What an address asks a sheet for, by name. */
export type Asked = (name: string) => string | undefined

/** Names of the figures of what ran that an address may carry; they are the form's own. */
export const ASKED_FITTED = [
  'processorId',
  'cardId',
  'memoryType',
  'totalGB',
  'rateMts',
  'channels',
  'linkGen',
  'linkLanes',
] as const satisfies readonly (keyof FittedFields)[]

/**
 * The sheet for one run that was asked for by its address: with the parts and figures it is run with, so that what is
 * told of it is what will be kept. Parts that the shop does not have and figures that cannot be are passed over.
 */
export function sheetFor(sheet: RunSheet, asked: Asked, reading: Reading): RunSheet {
  const fields = new Map(
    ASKED_FITTED.flatMap((name): [string, readonly string[]][] => {
      const text = asked(name)
      return text === undefined ? [] : [[name, [text]]]
    }),
  )
  if (fields.size === 0) return sheet
  const { processorId, cardId, ...figures } = fittedFrom(fieldReader(fields, reading))
  const part = (kind: PartKind, id: string | undefined) =>
    sheet.parts.find((one) => one.kind === kind && one.id === id)
  const others = [part('processor', processorId), part('card', cardId)].filter(
    (one) => one !== undefined && one.id !== sheet.fitted[one.kind === 'card' ? 'cardId' : 'processorId'],
  )
  const { processorLimitW, cardLimitW, largeBar, ...plain } = sheet.fitted
  const isOther = (kind: PartKind): boolean => others.some((one) => one?.kind === kind)
  const { setAsIn, inside, ...rest } = sheet
  const known = Object.fromEntries(Object.entries(figures).filter(([, value]) => value !== undefined))
  return {
    ...rest,
    inside: [...inside.filter(({ kind }) => !isOther(kind)), ...others.filter((one) => one !== undefined)],
    fitted: {
      ...{ ...plain, ...known },
      ...(processorId !== undefined && part('processor', processorId) && { processorId }),
      ...(cardId !== undefined && part('card', cardId) && { cardId }),
      // What was set for one part says nothing of another.
      ...(!isOther('processor') && processorLimitW !== undefined && { processorLimitW }),
      ...(!isOther('card') && cardLimitW !== undefined && { cardLimitW }),
      ...(others.length === 0 && largeBar !== undefined && { largeBar }),
    },
    ...(others.length === 0 && setAsIn !== undefined && { setAsIn }),
  }
}

/**
 * A sheet's fields with the title and setting that were asked for in a row: its own, or one more. Names that the shop does
 * not have change nothing.
 */
export function withRow(typed: Typed, sheet: RunSheet, asked: Asked): Typed {
  const titleId = asked('title')
  const title = sheet.titles.find(({ id }) => id === titleId)
  if (titleId === undefined || title === undefined) return typed
  const rows = sheetRows(typed)
  const listed = Array.from({ length: rows }, (_, n) => n).find(
    (n) => textOf(typed, `title.${n}`) === titleId,
  )
  const isFree = rows === 1 && textOf(typed, 'title.0') === undefined
  const n = listed ?? (isFree ? 0 : rows)
  const version = title.versions?.at(-1)?.version
  const settingId = asked('setting')
  return new Map([
    ...typed,
    ['rows', [String(Math.max(rows, n + 1))]],
    [`title.${n}`, [titleId]],
    ...(settingId !== undefined && sheet.settings.some(({ id }) => id === settingId)
      ? [[`setting.${n}`, [settingId]] as [string, readonly string[]]]
      : []),
    ...(listed === undefined && version !== undefined
      ? [[`titleVersion.${n}`, [version]] as [string, readonly string[]]]
      : []),
  ])
}

type SheetRun = WantedRun & { readonly machineTag?: string | undefined }

/** The run sheet with machine, title, setting and what is run filled in. */
export function pathToSheet({ machineTag, titleId, settingId, fitted }: SheetRun): string {
  const { processorId, cardId, memory, link } = fitted
  const figures: Record<(typeof ASKED_FITTED)[number], string> = {
    ...{ processorId, cardId, memoryType: memory.memoryType },
    ...{ totalGB: `${memory.totalGB}`, rateMts: `${memory.rateMts}`, channels: `${memory.channels}` },
    ...{ linkGen: `${link.gen}`, linkLanes: `${link.lanes}` },
  }
  return `/runs/new?${new URLSearchParams({
    ...{ machine: machineTag ?? '', title: titleId, setting: settingId },
    ...figures,
  })}`
}
