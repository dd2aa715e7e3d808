import { RUN_EN } from '../words/en/runs.ts'
import { sayLowered } from '../words/lowered.ts'
import type { Shown } from './answerContext.ts'
import { pathToRun } from './runTable.tsx'
import { settingName, titleName } from './settingText.ts'

/** What a lower setting is worth: the free thing first, above everything that costs money. */
export const LoweredList = ({ shown: { answer, figures } }: { shown: Shown }) => {
  const { lowered = [], inputs } = answer
  if (lowered.length === 0) return null
  const w = RUN_EN.lowered
  return (
    <section id="lowered">
      <h2>{w.head}</h2>
      <p class="soft">{w.hint}</p>
      <ul class="ruled">
        {lowered.map((one) => {
          const { what, gain } = sayLowered(one, titleName(inputs.titles, one.titleId), figures)
          const runIds = [...one.before.runIds, ...one.after.runIds]
          return (
            <li>
              <b>{what}</b>
              <span class="block">
                <span class="num">{gain}</span>
                {one.reachesTarget && `; ${w.reaches}`}
                {!(one.before.onThisMachine && one.after.onThisMachine) && `; ${w.elsewhere}`}
              </span>
              <small class="block">
                {settingName(inputs.settings, one.settingId)} to {settingName(inputs.settings, one.loweredId)}
                ;{' '}
                {runIds.map((id, i) => (
                  <>
                    {i > 0 && ', '}
                    <a href={pathToRun(id)}>{id}</a>
                  </>
                ))}
              </small>
            </li>
          )
        })}
      </ul>
    </section>
  )
}
