import type { TitleGain, WantedRun } from '../core/gain/gain.ts'
import type { Machine } from '../core/machine.ts'
import { WHY_EN } from '../words/en/why.ts'
import { fill } from '../words/say.ts'
import type { Shown } from './answerContext.ts'
import { titleName } from './settingText.ts'
import { pathToSheet } from './sheetFor.ts'

/** The machine itself has what is run, so the run is made on it. */
const isOn = ({ build }: Machine, { processorId, cardId, memory }: WantedRun['fitted']): boolean =>
  build.processor?.id === processorId &&
  build.card?.id === cardId &&
  build.memory.reduce((sum, { modules = 0, moduleGB = 0 }) => sum + modules * moduleGB, 0) === memory.totalGB

/** The sheet for a run that would give a number, filled in: of the machine where it has these parts, else of a bench. */
export const RunLink = ({ run, machine }: { run: WantedRun; machine: Machine }) => (
  <a href={pathToSheet({ ...run, ...(isOn(machine, run.fitted) && { machineTag: machine.tag }) })}>
    {WHY_EN.wanted.note}
  </a>
)

/** For each title without a number the run that would tell most, to be noted. */
export const RunsThatTell = ({ gains, shown }: { gains: readonly TitleGain[]; shown: Shown }) => {
  const { machine, titles } = shown.answer.inputs
  const runs = gains.flatMap((gain) => (gain.grade === 'no number' ? gain.wanted.slice(0, 1) : []))
  if (runs.length === 0) return null
  return (
    <ul class="runs-that-tell">
      {runs.map((run) => (
        <li>
          {fill(WHY_EN.wanted.tells, {
            title: titleName(titles, run.titleId),
            processor: shown.lookup.partName(run.fitted.processorId),
            card: shown.lookup.partName(run.fitted.cardId),
          })}{' '}
          <RunLink run={run} machine={machine} />
        </li>
      ))}
    </ul>
  )
}
