import type { Context, Hono } from 'hono'
import { key, line, oneOf } from '../input/cells.ts'
import { celsius } from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { Remark } from '../uses/runs/oddRuns.ts'
import type { RunSheet, SheetTitle } from '../uses/runs/runSheet.ts'
import { RUN_EN } from '../words/en/runs.ts'
import { SELL_EN } from '../words/en/sell.ts'
import type { Figures } from '../words/figures.ts'
import { typedFitted } from './fittedFields.tsx'
import { FirstSubmit, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import {
  atSheetFields,
  fittedFrom,
  isOfLows,
  LOW_KINDS,
  rowsFrom,
  runLabel,
  SHEET_ROWS_MAX,
  sheetRows,
} from './runForm.ts'
import { namesIn, OddKept, oddStateOf, Remarks } from './runOdd.tsx'
import type { RunContext } from './runTable.tsx'
import { pathToSale } from './sellPaths.ts'
import { sheetFor, withRow } from './sheetFor.ts'
import { AsLastTime, type SheetProps, WhatRan, WhichMachine } from './sheetHead.tsx'
import { SheetRow } from './sheetRow.tsx'
import { fieldReader } from './typed.ts'

/** Titles that a sheet shows from the start; the others are chosen in a row of their own. */
const TITLES_SHOWN = 10

/** What was kept a moment ago, and what was there already. */
type Told = {
  readonly kept: readonly string[]
  readonly copies: readonly string[]
  /** Runs that do not fit, by id; absent while nobody knows. */
  readonly odd?: RunContext['odd']
}

type KeptProps = { told: Told; sheet: RunSheet; figures: Figures }

const WhatWasKept = ({ told: { kept, copies, odd }, sheet, figures }: KeptProps) =>
  kept.length + copies.length === 0 ? null : (
    <section class="kept" role="status">
      {kept.length > 0 && (
        <p>
          <b>{kept.length === 1 ? 'One run is kept: ' : `${kept.length} runs are kept: `}</b>
          {kept.map((id, i) => (
            <>
              {i > 0 && ', '}
              <a href={`/runs/${encodeURIComponent(id)}`}>{id}</a>
            </>
          ))}
          . Open one to correct it or to take it out.
        </p>
      )}
      <OddKept ids={kept} odd={odd} names={namesIn(sheet)} figures={figures} />
      {copies.map((id) => (
        <p>
          <a href={`/runs/${encodeURIComponent(id)}`}>{id}</a> is there already with the same machine, title,
          setting, minute and figures. It was not kept twice.
        </p>
      ))}
    </section>
  )

type ShownProps = SheetProps & {
  told: Told
  remarks: readonly Remark[]
  /** It is a step of the machine's sale, to which a link leads back. */
  isOfSale: boolean
}

const Sheet = (props: ShownProps) => {
  const { sheet, figures, typed, problems, told, remarks, isOfSale } = props
  const { machineTag, day, isToday } = sheet
  const rows = sheetRows(typed)
  return (
    <article class="card form sheet">
      <p class="line">
        {machineTag === undefined ? <b>{RUN_EN.bench}</b> : <Tag tag={machineTag} />}
        <span class="soft">{isToday ? 'today' : figures.date(`${day}T12:00:00Z`)}</span>
      </p>
      <h1>Note runs</h1>
      <WhatWasKept told={told} sheet={sheet} figures={figures} />
      {isOfSale && machineTag !== undefined && problems.length + remarks.length === 0 && (
        <p>
          <a href={pathToSale(machineTag)}>{SELL_EN.message.back}</a>
        </p>
      )}
      <WhichMachine sheet={sheet} />
      <form method="post" action="/runs/new">
        <FirstSubmit value="save" />
        <OnceKey />
        <input type="hidden" name="machine" value={machineTag ?? ''} />
        <input type="hidden" name="day" value={day} />
        <input type="hidden" name="rows" value={rows} />
        {isOfSale && <input type="hidden" name="sale" value="1" />}
        <ProblemSummary problems={problems} labels={runLabel} />
        <Remarks remarks={remarks} names={namesIn(sheet)} figures={figures} />
        {problems.length > 0 && problems.every(isOfLows) && (
          <p class="actions">
            <button class="button quiet" type="submit" name="do" value="without-lows">
              Keep the averages without the lows
            </button>
          </p>
        )}
        <WhatRan {...props} />
        <AsLastTime {...props} />
        <p class="hint">Type what you measured. Titles that you leave empty are left out.</p>
        {(sheet.titles.length === 0 || sheet.settings.length === 0) && (
          <p class="nothing" role="note">
            A run names a title and a setting, and this shop has{' '}
            {sheet.titles.length === 0 ? 'no title' : 'no setting'} yet. Add <a href="/titles/new">a title</a>{' '}
            and <a href="/titles/settings/new">a setting</a> first.
          </p>
        )}
        <div class="sheet-rows">
          {Array.from({ length: rows }, (_, n) => (
            <SheetRow {...props} n={n} row={rowOf(sheet, typed, n)} />
          ))}
        </div>
        <p class="does">
          <button class="button" type="submit" name="do" value="save">
            Keep the runs
          </button>
          {rows < SHEET_ROWS_MAX && (
            <button class="button quiet" type="submit" name="do" value="more">
              Another title
            </button>
          )}
        </p>
        <p>
          <a href="/runs/log">Read a frame-time log</a> · <a href="/titles">Titles, versions and settings</a>{' '}
          · <a href="/runs">All runs</a>
        </p>
      </form>
    </article>
  )
}

/** The remembered title of a row; undefined in a row whose title is chosen. */
const rowOf = (sheet: RunSheet, typed: Typed, n: number): SheetTitle | undefined => {
  const titleId = textOf(typed, `title.${n}`)
  const shown = sheet.rows.slice(0, TITLES_SHOWN)
  return shown[n]?.titleId === titleId ? shown[n] : undefined
}

/** The sheet as it starts: everything but the figures is filled in. */
function typedFromSheet(sheet: RunSheet): Typed {
  const rows = sheet.rows.slice(0, TITLES_SHOWN)
  const { driverVersion, roomC, low } = sheet.remembered
  const one = (name: string, value: string | number | undefined): [string, readonly string[]][] =>
    value === undefined ? [] : [[name, [String(value)]]]
  return new Map([
    ...typedFitted(sheet.fitted),
    ...one('rows', Math.max(rows.length, 1)),
    ...one('driverVersion', driverVersion),
    ...one('roomC', roomC),
    ...one('low', low),
    ...rows.flatMap(({ titleId, settingId, titleVersion, scene }, n) => [
      ...one(`title.${n}`, titleId),
      ...one(`setting.${n}`, settingId),
      ...one(`titleVersion.${n}`, titleVersion),
      ...one(`scene.${n}`, scene),
    ]),
  ])
}

const listOf = (text: string | undefined): string[] =>
  (text ?? '').split(',').filter((id) => id !== '' && id.length <= 60)

export function runSheetRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  type Asked = { readonly machine: string | undefined; readonly day: string | undefined }
  const show = async (
    c: Context,
    asked: Asked,
    typed: Typed | undefined,
    problems: readonly Problem[],
    remarks: readonly Remark[] = [],
  ) => {
    const [shop, found] = await Promise.all([uses.shop(), uses.runSheet(asked)])
    if (!found.ok) return problemPage(c, web, found.problems, 'Runs')
    const byAddress = (name: string) => c.req.query(name)
    const sheet = typed === undefined ? sheetFor(found.value, byAddress, readingFor(shop)) : found.value
    const kept = listOf(c.req.query('kept'))
    const { odd } = kept.length === 0 ? {} : oddStateOf(await uses.oddRuns())
    const told = { kept, copies: listOf(c.req.query('twice')), odd }
    const first = problems[0]
    return page(
      c,
      { title: 'Note runs', place: 'Runs', demo: options.demo, shopName: shop.name },
      <Sheet
        sheet={sheet}
        figures={figuresOf(shop)}
        typed={typed ?? withRow(typedFromSheet(sheet), sheet, byAddress)}
        problems={problems}
        told={told}
        remarks={remarks}
        isOfSale={(typed === undefined ? c.req.query('sale') : textOf(typed, 'sale')) === '1'}
      />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/runs/new', (c) =>
    show(c, { machine: c.req.query('machine'), day: c.req.query('day') || undefined }, undefined, []),
  )

  app.post('/runs/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const machine = textOf(typed, 'machine') ?? ''
    const asked = { machine, day: textOf(typed, 'day') }
    const pressed = textOf(typed, 'do')
    if (pressed === 'more') {
      const rows = Math.min(sheetRows(typed) + 1, SHEET_ROWS_MAX)
      return show(c, asked, new Map(typed).set('rows', [String(rows)]), [])
    }
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const fitted = fittedFrom(reader)
    const driverVersion = reader.read('driverVersion', line(60))
    const roomC = reader.read('roomC', celsius)
    const low = reader.read('low', oneOf(LOW_KINDS))
    const machineTag = reader.read('machine', key)
    const rows = rowsFrom(reader, typed, { low, withoutLows: pressed === 'without-lows' })
    if (reader.problems.length > 0) return show(c, asked, typed, reader.problems)
    const measured = {
      ...{ fitted, rows },
      ...(machineTag !== undefined && { machineTag }),
      ...{ driverVersion, roomC },
    }
    // Asked once: what is kept as typed, or without its lows, was looked at.
    const remarks = pressed === 'keep' || pressed === 'without-lows' ? [] : await uses.remarks(measured)
    if (remarks.length > 0) return show(c, asked, typed, [], remarks)
    const kept = await uses.recordRuns(measured, asked.day)
    if (!kept.ok) return show(c, asked, typed, atSheetFields(kept.problems))
    const { runIds, copies } = kept.value
    const query = new URLSearchParams({ machine })
    if (asked.day !== undefined) query.set('day', asked.day)
    if (textOf(typed, 'sale') === '1') query.set('sale', '1')
    if (runIds.length > 0) query.set('kept', runIds.join(','))
    if (copies.length > 0) query.set('twice', copies.map(({ runId }) => runId).join(','))
    return c.redirect(`/runs/new?${query}`, 303)
  })
}
