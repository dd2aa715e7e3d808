import type { Answer } from '../core/answer.ts'
import type { Pace } from '../core/gain/pace/pace.ts'
import { pacesOf } from '../core/paceOfAnswer.ts'
import { displayOf } from '../core/question.ts'
import type { OfFit } from '../uses/gain/keptFit.ts'
import type { TitlePace } from '../uses/gain/machinePace.ts'
import type { MachineView } from '../uses/views.ts'
import { PACE_EN } from '../words/en/pace.ts'
import type { Figures } from '../words/figures.ts'
import { sayPace } from '../words/pace.ts'
import { fill } from '../words/say.ts'
import { settingName, titleName } from './settingText.ts'

export type PaceLine = { readonly title: string; readonly setting: string; readonly pace: Pace }

/** What sets the pace in each title, and what the part that does not would add. */
export const PaceList = (props: {
  lines: readonly PaceLine[]
  figures: Figures
  refreshHz?: number | undefined
}) => {
  const { lines, figures, refreshHz } = props
  if (lines.length === 0) return null
  return (
    <section id="pace">
      <h2>{PACE_EN.head}</h2>
      <p class="soft">{PACE_EN.hint}</p>
      <ul class="ruled">
        {lines.map(({ title, setting, pace }) => (
          <li>
            {fill(PACE_EN.title, { title, says: sayPace(pace, figures, refreshHz).join(' ') })}
            <small class="block">{setting}</small>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** The same in the owner's titles, as the machine stands. */
export const PaceOfAnswer = ({ answer, figures }: { answer: Answer; figures: Figures }) => {
  const { question, titles, settings } = answer.inputs
  const paces = pacesOf(answer.inputs)
  const lines = question.wanted.flatMap(({ titleId, settingId }, i): PaceLine[] => {
    const pace = paces[i]
    return pace === undefined
      ? []
      : [{ title: titleName(titles, titleId), setting: settingName(settings, settingId), pace }]
  })
  return <PaceList lines={lines} figures={figures} refreshHz={displayOf(question).refreshHz} />
}

type MachineProps = {
  found: OfFit<readonly TitlePace[]>
  view: Pick<MachineView, 'titles' | 'settings'>
  figures: Figures
}

/** The same in the titles that were run on a machine, with the parts that are in it now. */
export const PaceOfMachine = ({ found, view, figures }: MachineProps) => {
  if (found.state === 'under way') return <p class="soft">{PACE_EN.waiting}</p>
  if (found.state === 'failed') return null
  const lines = found.told.map(({ titleId, settingId, pace }) => ({
    title: titleName(view.titles, titleId),
    setting: settingName(view.settings, settingId),
    pace,
  }))
  return <PaceList lines={lines} figures={figures} />
}
