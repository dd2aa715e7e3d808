import type { LevelTitle } from '../core/reach/curve.ts'
import { REACH_EN } from '../words/en/reach.ts'
import { partWords } from '../words/options.ts'
import { addedWords, levelWords, type Shown, titleName } from '../words/reach.ts'
import { capital, fill } from '../words/say.ts'
import { Named } from './platformsTable.tsx'

const W = REACH_EN.result

/** One title's part in a level: its rate, and the runs behind it or that the model tells it. */
const TitleBehind = ({ title, shown }: { title: LevelTitle; shown: Shown }) => {
  const { titleId, fps, grade, runIds } = title
  return (
    <>
      {fill(W.whyTitle, { title: titleName(shown, titleId), fps: shown.figures.fps(fps), grade })}
      {runIds.length === 0
        ? `, ${W.whyModel}`
        : runIds.map((id) => (
            <>
              , <a href={`/runs/${encodeURIComponent(id)}`}>{fill(W.whyRun, { id })}</a>
            </>
          ))}
    </>
  )
}

/** What the numbers are made of: parts with their prices, and where levels come from. */
export const WhyShown = ({ shown }: { shown: Shown }) => (
  <section class="card">
    <details>
      <summary>{W.why}</summary>
      <p>{fill(W.whyFrom, { version: shown.reach.version })}</p>
      <p>{W.whyAnchor}</p>
      <h3>{W.whyParts}</h3>
      {shown.reach.ask.platforms.map(({ name, parts }, at) => (
        <>
          <h4>
            <Named at={at} name={name} />
          </h4>
          <p>{W.whyPriced}</p>
          <ul>
            {parts.map(({ partId, priceMinor }) => (
              <li>
                {capital(partWords(shown.parts, partId), 'en')}:{' '}
                {priceMinor === undefined ? W.whyNoPrice : shown.figures.money(priceMinor)}
                {shown.typedIds.has(partId) && `, ${W.whyTyped}`}
              </li>
            ))}
          </ul>
          {(shown.reach.platforms[at]?.now.points ?? []).map((point) => (
            <>
              <p>{fill(W.whyLevel, { what: addedWords(point, shown), level: levelWords(point, shown) })}</p>
              <ul>
                {point.titles.map((title) => (
                  <li>
                    <TitleBehind title={title} shown={shown} />
                  </li>
                ))}
              </ul>
            </>
          ))}
        </>
      ))}
    </details>
  </section>
)
