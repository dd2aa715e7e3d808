import type { EndWhy, Why } from '../../core/gain/whyTypes.ts'
import type { Part } from '../../core/part.ts'
import { WHY_EN } from '../../words/en/why.ts'
import type { Figures } from '../../words/figures.ts'
import { settingName, titleName } from '../settingText.ts'
import { endsOf, RunLink, RunLinks, signed, type Told } from './told.tsx'

const W = WHY_EN

/** Further from its runs than the formula is, or beyond them. */
const isOutside = ({ raw, modelFps, blendFps }: EndWhy): boolean => {
  const all = raw === undefined ? [modelFps] : [modelFps, raw.averageFps]
  const tenth = 0.05
  return blendFps < Math.min(...all) - tenth || blendFps > Math.max(...all) + tenth
}

export const Ends = ({ why, figures }: { why: Why; figures: Figures }) => {
  const w = W.ends
  return (
    <section>
      <h3>{w.head}</h3>
      <table class="list">
        <thead>
          <tr>
            <th scope="col">{w.end}</th>
            <th scope="col" class="right">
              {w.own}
            </th>
            <th scope="col" class="right">
              {w.model}
            </th>
            <th scope="col" class="right">
              {w.share}
            </th>
            <th scope="col" class="right">
              {w.blend}
            </th>
          </tr>
        </thead>
        <tbody>
          {endsOf(why).map(([name, end]) => (
            <tr>
              <td>{name}</td>
              <td class="right num" data-label={w.own}>
                {end.raw === undefined ? w.noRun : `${figures.decimal(end.raw.averageFps)} FPS`}
              </td>
              <td class="right num" data-label={w.model}>
                {figures.decimal(end.modelFps)} FPS
              </td>
              <td class="right num" data-label={w.share}>
                {figures.named('sharePct', 100 * end.ownShare)}
              </td>
              <td class="right num" data-label={w.blend}>
                <b>{figures.decimal(end.blendFps)} FPS</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="soft">{w.says}</p>
      {endsOf(why).some(([, end]) => isOutside(end)) && <p class="soft">{w.shared}</p>}
    </section>
  )
}

export const Runs = ({ why, figures }: { why: Why; figures: Figures }) => {
  const w = W.runs
  const rows = endsOf(why).flatMap(([name, { runs }]) => runs.map((run) => [name, run] as const))
  return (
    <section>
      <h3>{w.head}</h3>
      {rows.length === 0 ? (
        <p>{w.none}</p>
      ) : (
        <table class="list">
          <thead>
            <tr>
              <th scope="col">{w.run}</th>
              <th scope="col">{w.end}</th>
              <th scope="col">{w.on}</th>
              <th scope="col" class="right">
                {w.fps}
              </th>
              <th scope="col" class="right">
                {w.off}
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([name, run]) => (
              <tr>
                <td>
                  <RunLink id={run.runId} />
                </td>
                <td data-label={w.end}>{name}</td>
                <td data-label={w.on}>{figures.shortDate(run.at)}</td>
                <td class="right num" data-label={w.fps}>
                  {figures.decimal(run.averageFps)} FPS
                </td>
                <td class="right num" data-label={w.off}>
                  {signed(100 * Math.expm1(run.off), figures)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

/** Runs that move the gain by less than a twentieth of a percent are not told. */
const TOLD_FROM = 0.05

/** Below this weight a run looks spoilt to the model. */
const DOUBTED = 0.3

export const Pulls = ({ why, told }: { why: Why; told: Told }) => {
  const { figures, view } = told
  const w = W.pulls
  const { titles, settings } = view.answer.inputs
  const pulls = why.pulls.filter(({ pull }) => Math.abs(pull) >= TOLD_FROM)
  return (
    <section>
      <h3>{w.head}</h3>
      {pulls.length === 0 ? (
        <p class="soft">{why.pulls.length === 0 ? w.none : w.little}</p>
      ) : (
        <>
          <p class="soft">{w.says}</p>
          <table class="list">
            <thead>
              <tr>
                <th scope="col">{w.runs}</th>
                <th scope="col">{w.title}</th>
                <th scope="col">{w.parts}</th>
                <th scope="col" class="right">
                  {w.fps}
                </th>
                <th scope="col" class="right">
                  {w.moves}
                </th>
              </tr>
            </thead>
            <tbody>
              {pulls.map((pull) => (
                <tr>
                  <td>
                    <RunLinks ids={pull.runIds} />
                    {pull.believed < DOUBTED && <small class="block">{w.doubted}</small>}
                  </td>
                  <td data-label={w.title}>
                    {titleName(titles, pull.titleId)}
                    <small class="block">{settingName(settings, pull.settingId)}</small>
                  </td>
                  <td data-label={w.parts}>
                    {named(view.parts, pull.processorId)}
                    <small class="block">{named(view.parts, pull.cardId)}</small>
                  </td>
                  <td class="right num" data-label={w.fps}>
                    {figures.decimal(pull.averageFps)} FPS
                  </td>
                  <td class="right num" data-label={w.moves}>
                    {signed(pull.pull, figures)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </section>
  )
}

const named = (parts: readonly Part[], id: string): string => parts.find((p) => p.id === id)?.name ?? id
