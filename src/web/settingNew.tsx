import type { Context, Hono } from 'hono'
import type { Setting } from '../core/gain/run.ts'
import { key, line, whole, yesNo } from '../input/cells.ts'
import { fps } from '../input/tables/runs.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import { Field, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import { readForm } from './readForm.ts'
import { settingText } from './settingText.ts'
import { fieldReader } from './typed.ts'

const LABELS: Readonly<Record<string, string>> = {
  widthPx: 'Width',
  heightPx: 'Height',
  preset: 'Preset',
  rayTracing: 'Ray tracing',
  upscaler: 'Upscaler mode',
  frameGeneration: 'Frame generation',
  settingCapFps: 'Held to',
  loweredFromId: 'One step below',
  loweredWhat: 'What is lower',
}
const labelOf = (field: string): string | undefined => LABELS[field]

type FormProps = { typed: Typed; problems: readonly Problem[] }

const YES_NO = [
  ['no', 'off'],
  ['yes', 'on'],
] as const

const NewSetting = ({ typed, problems, settings }: FormProps & { settings: readonly Setting[] }) => {
  const form = { typed, problems }
  return (
    <article class="card form">
      <h1>Add a setting</h1>
      <p class="hint">
        Exactly as it is run: two runs compare only where all of it is the same. Its key is made of what you
        type.
      </p>
      <ProblemSummary problems={problems} labels={labelOf} />
      <form method="post" action="/titles/settings/new">
        <OnceKey />
        <div class="row">
          <Field {...form} name="widthPx" label="Width" unit="px" inputmode="numeric" required narrow />
          <Field {...form} name="heightPx" label="Height" unit="px" inputmode="numeric" required narrow />
          <Field
            {...form}
            name="preset"
            label="Preset"
            hint="As the title calls it, such as high."
            required
          />
        </div>
        <div class="row">
          <Select {...form} name="rayTracing" label="Ray tracing" choices={YES_NO} />
          <Field {...form} name="upscaler" label="Upscaler mode" hint="Such as quality; empty: off." narrow />
          <Select
            {...form}
            name="frameGeneration"
            label="Frame generation"
            hint="Never compared across."
            choices={YES_NO}
          />
          <Field
            {...form}
            name="settingCapFps"
            label="Held to"
            hint="By a limiter or the display; empty: by nothing."
            unit="FPS"
            inputmode="decimal"
            narrow
          />
        </div>
        <fieldset>
          <legend>One step below another setting</legend>
          <p class="hint">
            Everything like the other one, and one slider lower. Measured at both, lowering it becomes an
            option with a gain and no price.
          </p>
          <div class="row">
            <Select
              {...form}
              name="loweredFromId"
              label="One step below"
              choices={[['', 'no other'], ...settings.map((s) => [s.id, settingText(s)] as const)]}
            />
            <Field {...form} name="loweredWhat" label="What is lower" hint="Such as shadows." />
          </div>
        </fieldset>
        <p class="does">
          <button class="button" type="submit">
            Save the setting
          </button>
          <a href="/titles#settings">All settings</a>
        </p>
      </form>
    </article>
  )
}

/** The form of a setting that is a step below another: everything but what is lower. */
const typedBelow = (from: Setting | undefined): Typed =>
  from === undefined
    ? new Map()
    : new Map(
        (
          [
            ['widthPx', from.widthPx],
            ['heightPx', from.heightPx],
            ['preset', from.preset],
            ['rayTracing', from.rayTracing ? 'yes' : 'no'],
            ['upscaler', from.upscaler],
            ['frameGeneration', from.frameGeneration ? 'yes' : 'no'],
            ['settingCapFps', from.capFps],
            ['loweredFromId', from.id],
          ] as const
        ).flatMap(([name, value]) => (value === undefined ? [] : [[name, [String(value)]] as const])),
      )

export function settingRoutes(app: Hono, { uses, options }: Web): void {
  const newSetting = async (c: Context, typed: Typed, problems: readonly Problem[]) => {
    const [shop, known] = await Promise.all([uses.shop(), uses.known()])
    return page(
      c,
      { title: 'Add a setting', place: 'Runs', demo: options.demo, shopName: shop.name },
      <NewSetting typed={typed} problems={problems} settings={known.settings} />,
      problems[0] === undefined ? 200 : STATUS_OF[problems[0].code],
    )
  }
  app.get('/titles/settings/new', async (c) => {
    const from = (await uses.known()).settings.find(({ id }) => id === c.req.query('from'))
    return newSetting(c, typedBelow(from), [])
  })
  app.post('/titles/settings/new', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const widthPx = reader.need('widthPx', whole(320, 16_000, 'pixels'), 'Give its width in pixels.')
    const heightPx = reader.need('heightPx', whole(200, 16_000, 'pixels'), 'Give its height in pixels.')
    const preset = reader.need('preset', line(60), 'Name the preset.')
    const upscaler = reader.read('upscaler', line(60))
    const capFps = reader.read('settingCapFps', fps)
    const fromSettingId = reader.read('loweredFromId', key)
    const what = reader.read('loweredWhat', line(60))
    if ((fromSettingId === undefined) !== (what === undefined))
      reader.problems.push({
        ...{ code: 'missing', field: what === undefined ? 'loweredWhat' : 'loweredFromId' },
        next: 'Say both: what is lower, and than which setting.',
      })
    if (widthPx === undefined || heightPx === undefined || preset === undefined || reader.problems.length > 0)
      return newSetting(c, typed, reader.problems)
    const saved = await uses.saveSetting({
      ...{ widthPx, heightPx, preset, upscaler, capFps },
      rayTracing: reader.read('rayTracing', yesNo) === true,
      frameGeneration: reader.read('frameGeneration', yesNo) === true,
      ...(fromSettingId !== undefined && what !== undefined && { lowered: { fromSettingId, what } }),
    })
    if (!saved.ok) return newSetting(c, typed, saved.problems)
    return c.redirect('/titles#settings', 303)
  })
}
