import type { Problem } from '../problem.ts'
import type { RunSheet } from '../uses/runs/runSheet.ts'
import { RUN_EN } from '../words/en/runs.ts'
import type { Figures } from '../words/figures.ts'
import { sayAsItRan } from '../words/runs.ts'
import { FittedFieldset, unknownOf } from './fittedFields.tsx'
import { Field, Select, type Typed } from './form.tsx'
import { pathTo } from './frame.ts'
import { LOW_KINDS, runLabel } from './runForm.ts'

/** What the parts of a sheet are drawn from. */
export type SheetProps = {
  sheet: RunSheet
  figures: Figures
  typed: Typed
  problems: readonly Problem[]
}

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
export const AsLastTime = ({ sheet, figures, typed, problems }: SheetProps) => {
  const { driverVersion, roomC, low } = sheet.remembered
  const told = [
    driverVersion === undefined ? undefined : `driver ${driverVersion}`,
    roomC === undefined ? undefined : `room ${figures.named('roomC', roomC)}`,
    low === undefined ? undefined : `1% low: ${RUN_EN.lows[low].means}`,
  ].filter((text) => text !== undefined)
  const isWrong = problems.some(({ field }) => ['driverVersion', 'roomC', 'low'].includes(field))
  return (
    <details class="fold" open={isWrong || low === undefined}>
      <summary>
        {told.length === 0 ? 'Driver, room, which 1% low' : `As last time: ${told.join(' · ')}`}
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
