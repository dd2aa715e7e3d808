import type { Context, Hono } from 'hono'
import { key, line, oneOf } from '../input/cells.ts'
import { celsius } from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { RunSheet, SheetTitle } from '../uses/runs/runSheet.ts'
import { RUN_EN } from '../words/en/runs.ts'
import type { Figures } from '../words/figures.ts'
import { sayAsItRan, sayAverage } from '../words/runs.ts'
import { FittedFieldset, typedFitted, unknownOf } from './fittedFields.tsx'
import { Field, FirstSubmit, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, pathTo, readingFor, type Web } from './frame.ts'
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
import { settingText, titleName } from './settingText.ts'
import { fieldReader } from './typed.ts'

/** Titles that a sheet shows from the start; the others are chosen in a row of their own. */
const TITLES_SHOWN = 10

type SheetProps = {
  sheet: RunSheet
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
  /** What was kept a moment ago, and what was there already. */
  told: Told
}
type Told = { readonly kept: readonly string[]; readonly copies: readonly string[] }

/** Machine and day come first, because what was fitted hangs on them: this form only looks. `kept`: what else it asks for. */
export const WhichMachine = (props: {
  sheet: RunSheet
  action?: string
  kept?: readonly (readonly [name: string, value: string])[]
}) => {
  const { sheet, action = '/runs/new', kept = [] } = props
  return (
    <details class="fold" open={sheet.rows.length === 0 && sheet.machineTag === undefined}>
      <summary>Another machine or day</summary>
      <form method="get" action={action} class="pair">
        {kept.map(([name, value]) => (
          <input type="hidden" name={name} value={value} />
        ))}
        <div class="field">
          <label for="which-machine">Machine</label>
          <select id="which-machine" name="machine">
            <option value="" selected={sheet.machineTag === undefined}>
              {RUN_EN.bench}
            </option>
            {sheet.machines.map(({ tag, ownerName, cardName }) => (
              <option value={tag} selected={tag === sheet.machineTag}>
                {[tag, ownerName, cardName].filter((text) => text !== undefined).join(', ')}
              </option>
            ))}
          </select>
        </div>
        <div class="field">
          <label for="which-day">Day</label>
          <input id="which-day" name="day" type="date" value={sheet.day} />
        </div>
        <p class="actions">
          <button class="button quiet" type="submit">
            Take this one
          </button>
        </p>
      </form>
    </details>
  )
}

const PARTS_TOLD = ['processor', 'card', 'memory', 'board'] as const

/** What ran, from the machine's history: read before anything is saved, typed over where something else ran. */
export const WhatRan = ({ sheet, figures, typed, problems }: Omit<SheetProps, 'told'>) => {
  const { fitted, inside, machineTag } = sheet
  const unknown = unknownOf(fitted)
  const { memoryType, totalGB, rateMts, channels, linkGen, linkLanes, ...set } = fitted
  const isMemoryKnown =
    memoryType !== undefined && totalGB !== undefined && rateMts !== undefined && channels !== undefined
  const nameOf = (id: string | undefined) => sheet.parts.find((part) => part.id === id)?.name
  const named =
    machineTag === undefined
      ? [nameOf(fitted.processorId), nameOf(fitted.cardId)].filter((name) => name !== undefined)
      : PARTS_TOLD.flatMap((kind) => inside.filter((part) => part.kind === kind).map(({ name }) => name))
  const isWrong = problems.some(({ field }) => field in fitted || unknown.some((name) => name === field))
  return (
    <section class="ran" aria-labelledby="ran-head">
      <h2 id="ran-head">What ran</h2>
      {named.length > 0 && <p>{named.join(' · ')}</p>}
      {isMemoryKnown && linkGen !== undefined && linkLanes !== undefined && (
        <p class="soft">
          {sayAsItRan(
            {
              memory: { memoryType, totalGB, rateMts, channels },
              link: { gen: linkGen, lanes: linkLanes },
              ...set,
            },
            figures,
          )}
          {fitted.largeBar === undefined && '; large window: nobody looked'}
          {sheet.setAsIn !== undefined && `; as set in ${sheet.setAsIn}`}
        </p>
      )}
      {sheet.displayInBoard && (
        <p class="wrong" role="note">
          By what was last seen, its display sits in the board, so the card does not draw. Plug it into the
          card before you run.
        </p>
      )}
      {unknown.length > 0 && (
        <p class="wrong">
          Not known{machineTag !== undefined && ` of ${machineTag} on that day`}:{' '}
          {unknown.map((name) => (runLabel(name) ?? name).toLowerCase()).join(', ')}. Type it below; a run
          without it compares with nothing.
        </p>
      )}
      <details class="fold" open={unknown.length > 0 || isWrong}>
        <summary>
          {unknown.length > 0 ? 'Type what is not known' : 'Something else ran: lent parts, other power'}
        </summary>
        <FittedFieldset parts={sheet.parts} typed={typed} problems={problems} />
        {machineTag !== undefined && (
          <p class="hint">
            It stays with these runs alone. What the machine has stands on{' '}
            <a href={pathTo('machines', machineTag)}>its page</a>.
          </p>
        )}
      </details>
    </section>
  )
}

/** What holds for every title of the sheet, as in the last run. */
const AsLastTime = ({ sheet, figures, typed, problems }: SheetProps) => {
  const { driverVersion, roomC, low, runId } = sheet.remembered
  const told = [
    driverVersion === undefined ? undefined : `driver ${driverVersion}`,
    roomC === undefined ? undefined : `room ${figures.named('roomC', roomC)}`,
    low === undefined ? undefined : `1% low: ${RUN_EN.lows[low].means}`,
  ].filter((text) => text !== undefined)
  const isWrong = problems.some(({ field }) => ['driverVersion', 'roomC', 'low'].includes(field))
  return (
    <details class="fold" open={isWrong || low === undefined}>
      <summary>
        {told.length === 0 ? 'Driver, room, which 1% low' : `As in ${runId}: ${told.join(' · ')}`}
      </summary>
      <div class="pair">
        <Field name="driverVersion" label="Driver" typed={typed} problems={problems} />
        <Field
          name="roomC"
          label="Room"
          unit="°C"
          inputmode="decimal"
          typed={typed}
          problems={problems}
          narrow
        />
      </div>
      <Select
        name="low"
        label="Which 1% low you type"
        hint="Two figures go by that name, and they differ. It is kept with each run and never mixed."
        typed={typed}
        problems={problems}
        choices={[
          ['', 'choose: it is remembered'],
          ...LOW_KINDS.map((kind) => [kind, RUN_EN.lows[kind].means] as const),
        ]}
      />
    </details>
  )
}

type RowProps = SheetProps & { n: number; row: SheetTitle | undefined }

const settingChoices = ({ settings }: RunSheet) => [
  ['', 'choose a setting'] as const,
  ...settings.map((setting) => [setting.id, settingText(setting)] as const),
]

const versionChoices = ({ titles }: RunSheet, row: SheetTitle) => {
  const listed = titles.find(({ id }) => id === row.titleId)?.versions ?? []
  return [...listed].reverse().map(({ version }) => [version, version] as const)
}

const MoreOfRow = ({ n, row, sheet, typed, problems }: RowProps) => (
  <>
    <Select
      name={`setting.${n}`}
      label="Setting"
      typed={typed}
      problems={problems}
      choices={settingChoices(sheet)}
    />
    <div class="pair">
      {row !== undefined && versionChoices(sheet, row).length > 0 ? (
        <>
          <Select
            name={`titleVersion.${n}`}
            label="Version"
            typed={typed}
            problems={problems}
            choices={versionChoices(sheet, row)}
          />
          <Field name={`newVersion.${n}`} label="Or a new one" typed={typed} problems={problems} />
        </>
      ) : (
        <Field name={`titleVersion.${n}`} label="Version" typed={typed} problems={problems} />
      )}
    </div>
    <Field
      name={`scene.${n}`}
      label="Scene"
      hint="The route you run each time. Another scene is another measurement."
      typed={typed}
      problems={problems}
    />
    <div class="pair">
      {(
        [
          ['processorLoadC', 'Processor under load', '°C'],
          ['cardLoadC', 'Card under load', '°C'],
          ['noiseDba', 'Noise at 1 m', 'dB(A)'],
        ] as const
      ).map(([name, label, unit]) => (
        <Field name={`${name}.${n}`} {...{ label, unit, typed, problems }} inputmode="decimal" narrow />
      ))}
    </div>
    <Field name={`note.${n}`} label="Note" typed={typed} problems={problems} />
  </>
)

const MORE = [
  'setting',
  'titleVersion',
  'newVersion',
  'scene',
  'processorLoadC',
  'cardLoadC',
  'noiseDba',
  'note',
]

const Row = (props: RowProps) => {
  const { n, row, sheet, figures, typed, problems } = props
  const settingId = textOf(typed, `setting.${n}`)
  const setting = sheet.settings.find(({ id }) => id === settingId)
  const version = textOf(typed, `titleVersion.${n}`)
  const scene = textOf(typed, `scene.${n}`)
  const isWrong = problems.some(({ field }) => MORE.some((name) => field === `${name}.${n}`))
  const figure = (name: string, label: string) => (
    <Field name={`${name}.${n}`} {...{ label, typed, problems }} unit="FPS" inputmode="decimal" />
  )
  return (
    <fieldset class="sheet-row">
      <legend>{row === undefined ? 'Another title' : titleName(sheet.titles, row.titleId)}</legend>
      {row === undefined ? (
        <Select
          name={`title.${n}`}
          label="Title"
          typed={typed}
          problems={problems}
          choices={[['', 'choose a title'], ...sheet.titles.map(({ id, name }) => [id, name] as const)]}
        />
      ) : (
        <input type="hidden" name={`title.${n}`} value={row.titleId} />
      )}
      {row?.kept.map((run) => (
        <p class="soft">
          <a href={`/runs/${encodeURIComponent(run.id)}`}>{run.id}</a> kept:{' '}
          {sayAverage(
            run,
            {
              setting: sheet.settings.find(({ id }) => id === run.settingId),
              title: sheet.titles.find(({ id }) => id === run.titleId),
            },
            figures,
          )}
        </p>
      ))}
      <div class="pair">
        {figure('averageFps', 'Average')}
        {figure('lowFps', '1% low')}
      </div>
      <details class="fold" open={isWrong || row === undefined}>
        <summary>
          {[
            setting === undefined ? 'setting' : settingText(setting),
            version === undefined ? 'version' : `version ${version}`,
            scene,
          ]
            .filter((text) => text !== undefined)
            .join(' · ')}
        </summary>
        <MoreOfRow {...props} />
      </details>
    </fieldset>
  )
}

const WhatWasKept = ({ told: { kept, copies } }: { told: Told }) =>
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
      {copies.map((id) => (
        <p>
          <a href={`/runs/${encodeURIComponent(id)}`}>{id}</a> is there already with the same machine, title,
          setting, minute and figures. It was not kept twice.
        </p>
      ))}
    </section>
  )

const Sheet = (props: SheetProps) => {
  const { sheet, figures, typed, problems, told } = props
  const { machineTag, day, isToday } = sheet
  const rows = sheetRows(typed)
  return (
    <article class="card form sheet">
      <p class="line">
        {machineTag === undefined ? <b>{RUN_EN.bench}</b> : <Tag tag={machineTag} />}
        <span class="soft">{isToday ? 'today' : figures.date(`${day}T12:00:00Z`)}</span>
      </p>
      <h1>Note runs</h1>
      <WhatWasKept told={told} />
      <WhichMachine sheet={sheet} />
      <form method="post" action="/runs/new">
        <FirstSubmit value="save" />
        <OnceKey />
        <input type="hidden" name="machine" value={machineTag ?? ''} />
        <input type="hidden" name="day" value={day} />
        <input type="hidden" name="rows" value={rows} />
        <ProblemSummary problems={problems} labels={runLabel} />
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
        <div class="sheet-rows">
          {Array.from({ length: rows }, (_, n) => (
            <Row {...props} n={n} row={rowOf(sheet, typed, n)} />
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
  const show = async (c: Context, asked: Asked, typed: Typed | undefined, problems: readonly Problem[]) => {
    const [shop, sheet] = await Promise.all([uses.shop(), uses.runSheet(asked)])
    if (!sheet.ok) return problemPage(c, web, sheet.problems, 'Runs')
    const told = { kept: listOf(c.req.query('kept')), copies: listOf(c.req.query('twice')) }
    const first = problems[0]
    return page(
      c,
      { title: 'Note runs', place: 'Runs', demo: options.demo, shopName: shop.name },
      <Sheet
        sheet={sheet.value}
        figures={figuresOf(shop)}
        typed={typed ?? typedFromSheet(sheet.value)}
        problems={problems}
        told={told}
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
    const kept = await uses.recordRuns(
      { ...{ fitted, rows }, ...(machineTag !== undefined && { machineTag }), driverVersion, roomC },
      asked.day,
    )
    if (!kept.ok) return show(c, asked, typed, atSheetFields(kept.problems))
    const { runIds, copies } = kept.value
    const query = new URLSearchParams({ machine })
    if (asked.day !== undefined) query.set('day', asked.day)
    if (runIds.length > 0) query.set('kept', runIds.join(','))
    if (copies.length > 0) query.set('twice', copies.map(({ runId }) => runId).join(','))
    return c.redirect(`/runs/new?${query}`, 303)
  })
}
