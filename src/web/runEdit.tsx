import { dayOf } from '../input/dates.ts'
import type { Problem } from '../problem.ts'
import { fittedFieldsOf } from '../uses/fittedOnDay.ts'
import type { RunView } from '../uses/runs/runViews.ts'
import { type LowKey, RUN_EN } from '../words/en/runs.ts'
import { FittedFieldset, typedFitted } from './fittedFields.tsx'
import { Field, ProblemSummary, Select, type Typed } from './form.tsx'
import { Tag } from './mark.tsx'
import { runLabel } from './runForm.ts'
import { pathToRun, type RunContext } from './runTable.tsx'
import { settingText } from './settingText.ts'

type Shown = { view: RunView; context: RunContext }

const FIGURES = ['averageFps', 'low1Fps', 'low1MeanFps', 'low01Fps', 'low01MeanFps'] as const
const LOW_HINTS: Readonly<Record<string, string>> = Object.fromEntries(
  (Object.keys(RUN_EN.lows) as LowKey[]).map((low) => [low, RUN_EN.lows[low].means]),
)

/** Every figure of a run in a field of its own. */
export const RunEditForm = ({
  view,
  context,
  typed,
  problems,
}: Shown & { typed: Typed; problems: readonly Problem[] }) => {
  const { run } = view
  const form = { typed, problems }
  const text = (name: string, unit?: string) => (
    <Field
      {...form}
      name={name}
      label={runLabel(name) ?? name}
      hint={LOW_HINTS[name]}
      unit={unit}
      inputmode={unit === undefined ? undefined : 'decimal'}
      narrow={unit !== undefined}
    />
  )
  return (
    <article class="card form">
      <p class="line">
        {run.machineTag === undefined ? <b>{RUN_EN.bench}</b> : <Tag tag={run.machineTag} />}
        <span class="num soft">{run.id}</span>
      </p>
      <h1>Correct {run.id}</h1>
      <ProblemSummary problems={problems} labels={runLabel} />
      {run.logId !== undefined && (
        <p class="nothing" role="note">
          Its figures come from a frame-time log and stay what they are.
        </p>
      )}
      <form method="post" action={`${pathToRun(run.id)}/correct`}>
        <div class="row">
          <Select
            {...form}
            name="title"
            label="Title"
            choices={context.titles.map(({ id, name }) => [id, name] as const)}
          />
          {text('titleVersion')}
        </div>
        <Select
          {...form}
          name="setting"
          label="Setting"
          choices={context.settings.map((setting) => [setting.id, settingText(setting)] as const)}
        />
        <div class="grid">{FIGURES.map((name) => text(name, 'FPS'))}</div>
        <fieldset>
          <legend>How it was made</legend>
          <div class="grid">
            <Field {...form} name="day" label="Day" type="date" narrow />
            {text('driverVersion')}
            {text('scene')}
            {text('roomC', '°C')}
            {text('processorLoadC', '°C')}
            {text('cardLoadC', '°C')}
            {text('noiseDba', 'dB(A)')}
          </div>
          {text('note')}
        </fieldset>
        <fieldset>
          <legend>What ran</legend>
          <FittedFieldset {...form} parts={context.parts} />
        </fieldset>
        <p class="does">
          <button class="button" type="submit">
            Save the run
          </button>
          <a href={pathToRun(run.id)}>Leave it as it is</a>
        </p>
      </form>
    </article>
  )
}

const TEXTS = [
  ...FIGURES,
  ...([
    'titleVersion',
    'driverVersion',
    'scene',
    'roomC',
    'processorLoadC',
    'cardLoadC',
    'noiseDba',
    'note',
  ] as const),
]

/** The form as the run stands. */
export const typedFromRun = ({ run }: RunView, timeZone: string): Typed =>
  new Map([
    ...typedFitted(fittedFieldsOf(run.fitted)),
    ['title', [run.titleId]],
    ['setting', [run.settingId]],
    ['day', [dayOf(run.at, timeZone)]],
    ...TEXTS.flatMap((name): [string, string[]][] => {
      const value = run[name]
      return value === undefined ? [] : [[name, [String(value)]]]
    }),
  ])
