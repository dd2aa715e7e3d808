import type { Context, Hono } from 'hono'
import { date, line, number } from '../input/cells.ts'
import { fps, versionName } from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import type { SettingLine, TitlesView, TitleView } from '../uses/runs/runViews.ts'
import { RUN_EN } from '../words/en/runs.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { ExportLink } from './exportLink.tsx'
import { Field, ProblemSummary, type Typed, typedOf } from './form.tsx'
import { figuresOf, param, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import { listPath } from './pages.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { OwnersSaid } from './runs.tsx'
import { type RunContext, RunTable } from './runTable.tsx'
import { settingText } from './settingText.ts'
import { fieldReader } from './typed.ts'

const pathToTitle = (id: string): string => `/titles/${encodeURIComponent(id)}`
const pathToSetting = (id: string): string => `/titles/settings/new?from=${encodeURIComponent(id)}`

const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`

const LABELS: Readonly<Record<string, string>> = {
  name: 'Name',
  memoryGB: 'Memory it wants',
  graphicsMemoryGB: 'Graphics memory it wants',
  capFps: 'Goes no faster than',
  newVersion: 'A version that came out',
  newVersionOn: 'On',
}
const labelOf = (field: string): string | undefined => LABELS[field]

const SettingRow = ({
  line: { setting, runs, questions },
  lines,
}: {
  line: SettingLine
  lines: readonly SettingLine[]
}) => {
  const from = lines.find((l) => l.setting.id === setting.lowered?.fromSettingId)?.setting
  return (
    <li>
      <b>{settingText(setting)}</b> <span class="num soft">{setting.id}</span>
      {from !== undefined && (
        <small class="block">
          One step below {settingText(from)}: with lower {setting.lowered?.what}.
        </small>
      )}
      <small class="block">
        {counted(runs, 'run', 'runs')}
        {questions > 0 && `, ${counted(questions, 'question', 'questions')}`}.{' '}
        <a href={pathToSetting(setting.id)}>Add one that is a step below</a>
      </small>
    </li>
  )
}

const Titles = ({ view, figures }: { view: TitlesView; figures: Figures }) => (
  <>
    <div class="head">
      <h1>Titles and settings</h1>
      <p class="line">
        <ExportLink table="titles" />
        <a class="button" href="/titles/new">
          Add a title
        </a>
        <a class="button quiet" href="/titles/settings/new">
          Add a setting
        </a>
      </p>
    </div>
    <div class="halves">
      <section class="card">
        <h2>Titles</h2>
        {view.titles.length === 0 ? (
          <p class="soft">None yet. Add what your customers play.</p>
        ) : (
          <ul class="ruled">
            {view.titles.map(({ title, runs, oldRuns }) => {
              const newest = title.versions?.at(-1)
              return (
                <li>
                  <b>
                    <a href={pathToTitle(title.id)}>{title.name}</a>
                  </b>
                  <small class="block">
                    {newest === undefined
                      ? 'no version known'
                      : `version ${newest.version} since ${figures.shortDate(newest.at)}`}
                    ; {counted(runs, 'run', 'runs')}
                    {oldRuns > 0 && `, ${oldRuns} of them old`}
                    {title.capFps !== undefined && `; goes no faster than ${figures.fps(title.capFps)}`}
                  </small>
                </li>
              )
            })}
          </ul>
        )}
      </section>
      <section class="card" id="settings">
        <h2>Settings</h2>
        <p class="hint">
          Runs compare at one setting alone, and never across frame generation. A setting that runs or
          questions name stays what it is.
        </p>
        {view.settings.length === 0 ? (
          <p class="soft">None yet. Add the ones you measure at.</p>
        ) : (
          <ul class="ruled">
            {view.settings.map((one) => (
              <SettingRow line={one} lines={view.settings} />
            ))}
          </ul>
        )}
      </section>
    </div>
  </>
)

type FormProps = { typed: Typed; problems: readonly Problem[] }

const TitleFields = (form: FormProps) => (
  <>
    <Field {...form} name="name" label={LABELS.name ?? ''} required />
    <div class="grid">
      <Field
        {...form}
        name="memoryGB"
        label={LABELS.memoryGB ?? ''}
        hint="At 1920 × 1080, high: as its maker says, or as you saw it."
        unit="GB"
        inputmode="decimal"
        narrow
      />
      <Field
        {...form}
        name="graphicsMemoryGB"
        label={LABELS.graphicsMemoryGB ?? ''}
        hint="The same of the card."
        unit="GB"
        inputmode="decimal"
        narrow
      />
      <Field
        {...form}
        name="capFps"
        label={LABELS.capFps ?? ''}
        hint="Where the engine itself stops. A run within 3% of it says “at least”."
        unit="FPS"
        inputmode="decimal"
        narrow
      />
    </div>
    <fieldset>
      <legend>A version that came out</legend>
      <p class="hint">Runs of earlier versions count as old from then on.</p>
      <div class="row">
        <Field {...form} name="newVersion" label="Version" narrow />
        <Field {...form} name="newVersionOn" label="On" type="date" narrow />
      </div>
    </fieldset>
  </>
)

const NewTitle = ({ typed, problems }: FormProps) => (
  <article class="card form">
    <h1>Add a title</h1>
    <ProblemSummary problems={problems} labels={labelOf} />
    <form method="post" action="/titles/new">
      <OnceKey />
      <TitleFields typed={typed} problems={problems} />
      <p class="does">
        <button class="button" type="submit">
          Save the title
        </button>
        <a href="/titles">All titles</a>
      </p>
    </form>
  </article>
)

type TitleProps = FormProps & { view: TitleView; context: RunContext; saved: boolean }

const TitleBody = ({ view, context, typed, problems, saved }: TitleProps) => {
  const { title, isListed, runs, found, ofVersion, reports } = view
  const { figures } = context
  const versions = [...(title.versions ?? [])].reverse()
  return (
    <>
      <article class="card">
        <p class="soft">
          Title <span class="num">{title.id}</span>
        </p>
        <h1>{title.name}</h1>
        {saved && (
          <p class="done" role="status">
            <b>Saved.</b>
          </p>
        )}
        <ProblemSummary problems={problems} labels={labelOf} />
        <h2>Versions</h2>
        {versions.length === 0 ? (
          <p class="soft">None known.</p>
        ) : (
          <ul class="ruled">
            {versions.map(({ version, at }, i) => (
              <li>
                <b>{version}</b>, since {figures.date(at)}
                {i === 0 && <span class="soft">; what people play now</span>}
                <small class="block">{counted(ofVersion.get(version) ?? 0, 'run', 'runs')}</small>
              </li>
            ))}
          </ul>
        )}
        {!isListed && versions.length > 0 && (
          <p class="hint">Told by its runs. The first version you add below makes them a list.</p>
        )}
        <details class="fold" open={problems.length > 0}>
          <summary>Add a version, or what it wants</summary>
          <form method="post" action={pathToTitle(title.id)}>
            <TitleFields typed={typed} problems={problems} />
            <p class="does">
              <button class="button" type="submit">
                Save the title
              </button>
            </p>
          </form>
        </details>
        <h2>Runs</h2>
        {runs.length === 0 ? (
          <p class="soft">
            None yet. <a href="/runs/new">Note what you measured</a>.
          </p>
        ) : (
          <RunTable runs={runs} context={context} from={pathToTitle(title.id)} />
        )}
        {found > runs.length && (
          <p>
            <a href={listPath('/runs', { title: title.id })}>
              {fill(RUN_EN.allOfTitle, { n: figures.number(found) })}
            </a>
          </p>
        )}
        <p>
          <a href="/titles">All titles and settings</a>
        </p>
      </article>
      <OwnersSaid {...context} reports={reports} />
    </>
  )
}

const typedFromTitle = ({ title }: TitleView): Typed =>
  new Map(
    (['name', 'memoryGB', 'graphicsMemoryGB', 'capFps'] as const).flatMap((name) =>
      title[name] === undefined ? [] : [[name, [String(title[name])]] as const],
    ),
  )

export function titleRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const frame = (title: string, shopName: string) =>
    ({ title, place: 'Runs', demo: options.demo, shopName }) as const
  const status = (problems: readonly Problem[]) =>
    problems[0] === undefined ? 200 : STATUS_OF[problems[0].code]

  app.get('/titles', async (c) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.titles()])
    return page(c, frame('Titles and settings', shop.name), <Titles view={view} figures={figuresOf(shop)} />)
  })

  const newTitle = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const shop = await uses.shop()
    return page(
      c,
      frame('Add a title', shop.name),
      <NewTitle typed={typed} problems={problems} />,
      status(problems),
    )
  }
  /** What the form says of a title, or what is wrong with it. */
  const titleFrom = async (typed: Typed) => {
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const name = reader.need('name', line(), 'Give the title its name.')
    const gigabytes = number(0.25, 100_000, 'GB')
    const fields = {
      memoryGB: reader.read('memoryGB', gigabytes),
      graphicsMemoryGB: reader.read('graphicsMemoryGB', gigabytes),
      capFps: reader.read('capFps', fps),
    }
    const version = reader.read('newVersion', versionName)
    const on = reader.read('newVersionOn', date)
    if (version === undefined && on !== undefined)
      reader.problems.push({ code: 'missing', field: 'newVersion', next: 'Say which version came out.' })
    const newVersion = version === undefined ? undefined : { version, at: on ?? uses.now() }
    return { reader, edit: name === undefined ? undefined : { name, ...fields, newVersion } }
  }

  app.get('/titles/new', (c) => newTitle(c, new Map(), []))
  app.post('/titles/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const { reader, edit } = await titleFrom(typed)
    if (edit === undefined || reader.problems.length > 0) return newTitle(c, typed, reader.problems)
    const saved = await uses.saveTitle(edit)
    if (!saved.ok) return newTitle(c, typed, saved.problems)
    return c.redirect(`${pathToTitle(saved.value.id)}?saved=1`, 303)
  })

  const show = async (c: Context, typed: Typed | undefined, problems: readonly Problem[]) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.title(param(c, 'id'))])
    if (!view.ok) return problemPage(c, web, view.problems, 'Runs')
    const context = { ...view.value, policy: shop.policy, now: uses.now(), figures: figuresOf(shop) }
    return page(
      c,
      frame(view.value.title.name, shop.name),
      <TitleBody
        view={view.value}
        context={context}
        typed={typed ?? typedFromTitle(view.value)}
        problems={problems}
        saved={c.req.query('saved') !== undefined}
      />,
      status(problems),
    )
  }
  app.get('/titles/:id', (c) => show(c, undefined, []))
  app.post('/titles/:id', async (c) => {
    const typed = typedOf(await readForm(c))
    const { reader, edit } = await titleFrom(typed)
    if (edit === undefined || reader.problems.length > 0) return show(c, typed, reader.problems)
    const saved = await uses.saveTitle({ ...edit, id: param(c, 'id') })
    if (!saved.ok) return show(c, typed, saved.problems)
    return c.redirect(`${pathToTitle(saved.value.id)}?saved=1`, 303)
  })
}
