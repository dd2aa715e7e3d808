import type { NextRun } from '../core/gain/nextRun/nextRuns.ts'
import type { NextRunsNow } from '../uses/measure/nextRuns.ts'
import { MEASURE_EN } from '../words/en/measure.ts'
import type { Figures } from '../words/figures.ts'
import { sayHelps, sayMinutes, sayWhere } from '../words/measure.ts'
import { fill } from '../words/say.ts'
import { pathTo } from './frame.ts'
import { settingName, titleName } from './settingText.ts'
import { pathToSheet } from './sheetFor.ts'

const W = MEASURE_EN.next

/** Runs that are listed; the rest would help less. */
export const NEXT_SHOWN = 3

const LINKS = [
  ['/promises', W.links.promises],
  ['/model', W.links.card],
  ['/runs/map', W.links.map],
] as const

const Links = ({ here }: { here: string | undefined }) => (
  <p class="soft">
    {LINKS.filter(([path]) => path !== here).map(([path, says], i) => (
      <>
        {i > 0 && ' · '}
        <a href={path}>{says}</a>
      </>
    ))}
  </p>
)

const OneRun = ({ run, now, figures }: { run: NextRun; now: NextRunsNow; figures: Figures }) => {
  if (now.state !== 'told') return null
  const { titles, settings, parts, questions } = now.view
  const first = questions.find(({ id }) => id === run.helps[0]?.questionId)
  return (
    <li>
      <b>
        {fill(W.run, {
          title: titleName(titles, run.titleId),
          setting: settingName(settings, run.settingId),
        })}
      </b>{' '}
      {sayWhere(run, parts)}
      <small class="block">
        {sayHelps(run, figures)} {sayMinutes(run, figures)}
      </small>
      <span class="line">
        <a href={pathToSheet(run)}>{W.note}</a>
        {first !== undefined && <a href={pathTo('questions', first.id)}>“{first.words}”</a>}
      </span>
    </li>
  )
}

const said = (now: NextRunsNow): string | undefined => {
  if (now.state === 'under way') return W.underWay
  if (now.state === 'failed') return W.failed
  const { runs, questions, handTags, hasBench } = now.view
  if (runs.length > 0) return undefined
  if (questions.length === 0) return W.noQuestion
  return handTags.length === 0 && !hasBench ? W.noHand : W.none
}

/** What to measure next, as it was last worked out: nobody waits for it. `here` is the page it stands on. */
export const NextRunsBlock = ({
  now,
  figures,
  here,
}: {
  now: NextRunsNow
  figures: Figures
  here?: string | undefined
}) => {
  const instead = said(now)
  return (
    <section class="card lesson" id="next-runs">
      <h2>{W.head}</h2>
      {instead !== undefined && <p class="soft">{instead}</p>}
      {now.state === 'told' && now.view.runs.length > 0 && (
        <>
          <p class="soft">
            {W.says}
            {now.isStale && ` ${W.stale}`}
          </p>
          <ol class="ruled">
            {now.view.runs.slice(0, NEXT_SHOWN).map((run) => (
              <OneRun run={run} now={now} figures={figures} />
            ))}
          </ol>
        </>
      )}
      <Links here={here} />
    </section>
  )
}
