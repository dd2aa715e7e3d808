import type { RunSheet } from '../uses/runs/runSheet.ts'
import { type Typed, textOf } from './form.tsx'
import { sheetRows } from './runForm.ts'

/**
 * The sheet for one run that was asked for by its address: its title comes in a row of its own with the setting, and on
 * a machine or bench the parts it is run with. Names that the shop does not have change nothing.
 */
export function withRun(typed: Typed, sheet: RunSheet, asked: (name: string) => string | undefined): Typed {
  const titleId = asked('title')
  const settingId = asked('setting')
  if (!sheet.titles.some(({ id }) => id === titleId) || titleId === undefined) return typed
  const rows = sheetRows(typed)
  const listed = Array.from({ length: rows }, (_, n) => n).find(
    (n) => textOf(typed, `title.${n}`) === titleId,
  )
  const isFree = rows === 1 && textOf(typed, 'title.0') === undefined
  const n = listed ?? (isFree ? 0 : rows)
  const version = sheet.titles.find(({ id }) => id === titleId)?.versions?.at(-1)?.version
  const known = (id: string | undefined, list: readonly { readonly id: string }[]) =>
    id !== undefined && list.some((one) => one.id === id)
  const part = (field: 'processorId' | 'cardId', id: string | undefined): [string, readonly string[]][] =>
    id !== undefined && known(id, sheet.parts) ? [[field, [id]]] : []
  return new Map([
    ...typed,
    ['rows', [String(Math.max(rows, n + 1))]],
    [`title.${n}`, [titleId]],
    ...(settingId !== undefined && known(settingId, sheet.settings)
      ? [[`setting.${n}`, [settingId]] as [string, readonly string[]]]
      : []),
    ...(listed === undefined && version !== undefined
      ? [[`titleVersion.${n}`, [version]] as [string, readonly string[]]]
      : []),
    ...part('processorId', asked('processor')),
    ...part('cardId', asked('card')),
  ])
}
