import type { Context, Hono } from 'hono'
import { key, line, lines } from '../input/cells.ts'
import { celsius, loadCelsius, loudness, versionName } from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { FrameLogsView, LogSheet } from '../uses/frameLogs.ts'
import type { RunSheet, SheetTitle } from '../uses/runs/runSheet.ts'
import { RUN_EN } from '../words/en/runs.ts'
import type { Figures } from '../words/figures.ts'
import { sayChoice, sayDoubts, sayTooFew } from '../words/frameLog.ts'
import { lowsOf } from '../words/runs.ts'
import { typedFitted } from './fittedFields.tsx'
import { Field, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, readingFor, type Web } from './frame.ts'
import { choiceQuery, logIdsOf, typedChoiceOf } from './frameLogChoice.tsx'
import { onlyNamed } from './frameLogNames.ts'
import { pathToLogs } from './frameLogs.tsx'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { fittedFrom, runLabel } from './runForm.ts'
import { settingText } from './settingText.ts'
import { WhatRan, WhichMachine } from './sheetHead.tsx'
import { type FieldReader, fieldReader } from './typed.ts'

type Props = {
  view: FrameLogsView
  sheet: RunSheet
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

const idsIn = ({ logs }: FrameLogsView): string[] => logs.map(({ log }) => log.id)

/** The figures that will stand in the runs, each low with what it means. */
const WhatIsSaved = ({ view, figures }: Pick<Props, 'view' | 'figures'>) => (
  <>
    {view.logs.map(({ log, layout, study }) => (
      <section class="kept" aria-label={log.name}>
        <p>
          <b>{log.name}</b>: {sayChoice(view.choice, layout.columns)}.{' '}
          <a href={`${pathToLogs(idsIn(view))}?${choiceQuery(view.choice)}`}>Look again</a>
        </p>
        {study?.figures !== undefined && (
          <ul class="rows-told">
            <li>
              <b class="num">{figures.named('averageFps', study.figures.averageFps)}</b> on average
            </li>
            {lowsOf(study.figures, figures).map(({ name, means, says }) => (
              <li>
                <b class="num">{says}</b> {name}: {means}
              </li>
            ))}
            {sayTooFew(study.figures, figures).map((text) => (
              <li class="soft">{text}</li>
            ))}
          </ul>
        )}
        {study !== undefined &&
          sayDoubts(study, view.choice, figures).map((doubt) => (
            <p class="doubt" role="note">
              {doubt}
            </p>
          ))}
      </section>
    ))}
  </>
)

/** Versions that are listed of any title, newest first, each with its title: without a script nothing narrows a list. */
const versionChoices = ({ titles }: RunSheet): (readonly [string, string])[] => [
  ['', 'choose, or type a new one'],
  ...titles.flatMap(({ id, name, versions = [] }) =>
    versions.toReversed().map(({ version }) => [`${id} ${version}`, `${name}: ${version}`] as const),
  ),
]

const SaveForm = ({ view, sheet, figures, typed, problems }: Props) => {
  const form = { typed, problems }
  const count = view.logs.length
  return (
    <form method="post" action={`${pathToLogs(idsIn(view))}/save?${choiceQuery(view.choice)}`}>
      <OnceKey />
      <input type="hidden" name="machine" value={sheet.machineTag ?? ''} />
      <input type="hidden" name="day" value={sheet.day} />
      <ProblemSummary problems={problems} labels={labelOf} />
      <WhatRan sheet={sheet} figures={figures} {...form} />
      <h2>What was run</h2>
      <div class="grid">
        <Select
          {...form}
          name="title"
          label="Title"
          choices={[['', 'choose a title'], ...sheet.titles.map(({ id, name }) => [id, name] as const)]}
        />
        <Select
          {...form}
          name="setting"
          label="Setting"
          choices={[
            ['', 'choose a setting'],
            ...sheet.settings.map((setting) => [setting.id, settingText(setting)] as const),
          ]}
        />
        <Select {...form} name="titleVersion" label="Version" choices={versionChoices(sheet)} />
        <Field {...form} name="newVersion" label="Or a new version" />
        <Field {...form} name="driverVersion" label="Driver" />
        <Field {...form} name="scene" label="Scene" />
        <Field {...form} name="roomC" label="Room" unit="°C" inputmode="decimal" narrow />
        <Field
          {...form}
          name="processorLoadC"
          label="Processor under load"
          unit="°C"
          inputmode="decimal"
          narrow
        />
        <Field {...form} name="cardLoadC" label="Card under load" unit="°C" inputmode="decimal" narrow />
        <Field {...form} name="noiseDba" label="Noise at 1 m" unit="dB(A)" inputmode="decimal" narrow />
      </div>
      <Field {...form} name="note" label="Note" />
      <p class="actions">
        <button class="button" type="submit">
          {count === 1 ? 'Save the run' : `Save ${count} runs`}
        </button>
      </p>
      <p>
        <a href="/titles">Titles, versions and settings</a>
      </p>
    </form>
  )
}

const labelOf = (field: string): string | undefined => (field === 'log' ? 'Frame-time log' : runLabel(field))

const SaveBody = (props: Props) => {
  const { view, sheet, figures } = props
  const ids = idsIn(props.view)
  return (
    <article class="card form wide">
      <p class="line">
        {sheet.machineTag === undefined ? <b>{RUN_EN.bench}</b> : <Tag tag={sheet.machineTag} />}
        <span class="soft">{sheet.isToday ? 'today' : figures.date(`${sheet.day}T12:00:00Z`)}</span>
      </p>
      <h1>
        {view.logs.length === 1
          ? 'Save a run from this log'
          : `Save ${view.logs.length} runs from these logs`}
      </h1>
      <WhatIsSaved view={view} figures={figures} />
      <WhichMachine
        sheet={sheet}
        action={`${pathToLogs(ids)}/save`}
        kept={[...new URLSearchParams(choiceQuery(view.choice))]}
      />
      <SaveForm {...props} />
    </article>
  )
}

/** The form as it starts: the title that the files are named after or that was run last, as it was run last. */
function typedFromSheet({ fitted, remembered, rows, titles }: RunSheet, logNames: readonly string[]): Typed {
  const named = onlyNamed(titles, logNames, ({ id, name }) => [id, name])?.id
  const last: Partial<SheetTitle> | undefined =
    named === undefined ? rows[0] : (rows.find(({ titleId }) => titleId === named) ?? { titleId: named })
  const { driverVersion, roomC } = remembered
  const one = (name: string, value: string | number | undefined): [string, readonly string[]][] =>
    value === undefined ? [] : [[name, [String(value)]]]
  const version = last?.titleVersion
  return new Map([
    ...typedFitted(fitted),
    ...one('title', last?.titleId),
    ...one('setting', last?.settingId),
    ...one('titleVersion', version && `${last?.titleId} ${version}`),
    ...one('scene', last?.scene),
    ...one('driverVersion', driverVersion),
    ...one('roomC', roomC),
  ])
}

/** What was typed; undefined where something that a run cannot do without is missing. */
function sheetFrom(reader: FieldReader, typed: Typed): LogSheet | undefined {
  const titleId = reader.need('title', key, 'Choose the title.')
  const settingId = reader.need('setting', key, 'Choose the setting it ran at.')
  const newVersion = reader.read('newVersion', versionName)
  const titleVersion = newVersion ?? pickedVersion(reader, typed, titleId)
  const machineTag = reader.read('machine', key)
  const sheet = {
    ...(machineTag !== undefined && { machineTag }),
    fitted: fittedFrom(reader),
    driverVersion: reader.read('driverVersion', line(60)),
    roomC: reader.read('roomC', celsius),
    scene: reader.read('scene', line(120)),
    processorLoadC: reader.read('processorLoadC', loadCelsius),
    cardLoadC: reader.read('cardLoadC', loadCelsius),
    noiseDba: reader.read('noiseDba', loudness),
    note: reader.read('note', lines()),
    ...(newVersion !== undefined && { isNewVersion: true }),
  }
  if (titleId === undefined || settingId === undefined || titleVersion === undefined) return undefined
  return { ...sheet, titleId, settingId, titleVersion }
}

/** A picked version carries its title in front, and must be of the title that was picked. */
function pickedVersion(reader: FieldReader, typed: Typed, titleId: string | undefined): string | undefined {
  const picked = textOf(typed, 'titleVersion')
  const [ofTitle, ...version] = (picked ?? '').split(' ')
  if (picked !== undefined && ofTitle === titleId && version.length > 0) return version.join(' ')
  const next =
    picked === undefined
      ? 'Say which version ran: frame rates of two versions are not compared.'
      : 'This version is of another title. Choose one of the title above, or type a new one.'
  reader.problems.push({ code: picked === undefined ? 'missing' : 'conflict', field: 'titleVersion', next })
  return undefined
}

/** From figures to runs: which machine, day, title and setting they are of. */
export function frameLogSaveRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  type Asked = { readonly machine: string | undefined; readonly day: string | undefined }

  const show = async (c: Context, asked: Asked, typed: Typed | undefined, problems: readonly Problem[]) => {
    const ids = logIdsOf(c)
    const [shop, view, sheet] = await Promise.all([
      uses.shop(),
      uses.readFrameLogs(ids, typedChoiceOf(c)),
      uses.runSheet(asked),
    ])
    if (!view.ok) return problemPage(c, web, view.problems, 'Runs')
    if (!sheet.ok) return problemPage(c, web, sheet.problems, 'Runs')
    const names = view.value.logs.map(({ log }) => log.name)
    // Nobody chose a machine yet; what was fitted hangs on it, so the sheet is the one of the machine in the file's name.
    const tag =
      asked.machine === undefined
        ? onlyNamed(sheet.value.machines, names, ({ tag }) => [tag])?.tag
        : undefined
    const ofTag = tag === undefined ? sheet : await uses.runSheet({ ...asked, machine: tag })
    if (!ofTag.ok) return problemPage(c, web, ofTag.problems, 'Runs')
    // Still being read: the log's own page tells how far it is.
    if (view.value.share !== undefined)
      return c.redirect(`${pathToLogs(ids)}?${choiceQuery(view.value.choice)}`, 303)
    const first = problems[0]
    return page(
      c,
      { title: 'Save a run', place: 'Runs', demo: options.demo, shopName: shop.name },
      <SaveBody
        view={view.value}
        sheet={ofTag.value}
        figures={figuresOf(shop)}
        typed={typed ?? typedFromSheet(ofTag.value, names)}
        problems={problems}
      />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/runs/log/:ids/save', (c) =>
    show(c, { machine: c.req.query('machine'), day: c.req.query('day') || undefined }, undefined, []),
  )

  app.post('/runs/log/:ids/save', async (c) => {
    const typed = typedOf(await readForm(c))
    const asked = { machine: textOf(typed, 'machine') ?? '', day: textOf(typed, 'day') }
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const sheet = sheetFrom(reader, typed)
    if (sheet === undefined || reader.problems.length > 0) return show(c, asked, typed, reader.problems)
    const saved = await uses.saveFrameLogs(logIdsOf(c), typedChoiceOf(c), sheet, asked.day)
    if (!saved.ok) return show(c, asked, typed, saved.problems)
    const { runIds, copies } = saved.value
    const query = new URLSearchParams({ machine: asked.machine })
    if (runIds.length > 0) query.set('kept', runIds.join(','))
    if (copies.length > 0) query.set('twice', copies.map(({ runId }) => runId).join(','))
    return c.redirect(`/runs/new?${query}`, 303)
  })
}
