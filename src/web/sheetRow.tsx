import type { RunSheet, SheetTitle } from '../uses/runs/runSheet.ts'
import { sayAverage } from '../words/runs.ts'
import { Field, Select, textOf } from './form.tsx'
import { pathToRun } from './runTable.tsx'
import { settingText, titleName } from './settingText.ts'
import type { SheetProps } from './sheetHead.tsx'

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

/** One title: its two figures, and behind a fold what else it was run with. */
export const SheetRow = (props: RowProps) => {
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
          <a href={pathToRun(run.id)}>{run.id}</a> kept:{' '}
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
