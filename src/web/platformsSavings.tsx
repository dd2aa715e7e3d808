import { minorPerMajor } from '../core/currency.ts'
import type { Saving } from '../core/reach/reach.ts'
import { REACH_EN } from '../words/en/reach.ts'
import { countedWords, type Shown, turnWords } from '../words/reach.ts'
import { fill } from '../words/say.ts'
import { Heads } from './platformsTable.tsx'

const W = REACH_EN.result

const SavingShown = ({ saving, shown, one }: { saving: Saving; shown: Shown; one: number }) => {
  const { figures, reach } = shown
  const { dearer, cheaper, moreMinor } = saving
  // A level that both run at as they are tells nothing.
  const rows = saving.rows.filter((row) => row.dearerMinor !== 0 || row.cheaperMinor !== 0)
  const saves = rows.some(
    ({ dearerMinor, cheaperMinor }) =>
      dearerMinor !== undefined && (cheaperMinor === undefined || cheaperMinor > dearerMinor),
  )
  const showsPerOne = moreMinor > 0 && saves
  const perOne = fill(W.perOne, { one: figures.money(one) })
  const isTold = (name: string) =>
    reach.platforms.some((platform) => platform.name === name && platform.now.points.length > 0)
  const need = (name: string, minor: number | undefined) =>
    minor !== undefined ? figures.money(minor) : isTold(name) ? W.notThere : W.untoldShort
  const heads = [
    fill(W.needs, { name: dearer }),
    fill(W.needs, { name: cheaper }),
    ...(showsPerOne ? [perOne] : []),
    W.better,
  ]
  const when = (year: number) => (year === 0 ? W.rowNow : countedWords(W.rowLater, year))
  return (
    <li>
      <p>
        <b>
          {moreMinor === 0
            ? fill(W.same, { dearer, cheaper })
            : fill(W.more, { dearer, cheaper, more: figures.money(moreMinor) })}
        </b>
      </p>
      {turnWords(saving, shown).map((line) => (
        <p>{line}</p>
      ))}
      {moreMinor > 0 && !saves && <p>{rows.length === 0 ? W.savesNothing0 : W.savesNothing}</p>}
      {rows.length > 0 && (
        <table class="list">
          <Heads first={W.level2} rest={heads} />
          <tbody>
            {rows.map(({ year, fps, dearerMinor, cheaperMinor, better }) => (
              <tr>
                <td>
                  {figures.fpsAgainst(fps, reach.ask.targetFps)} <small>{when(year)}</small>
                </td>
                <td data-label={heads[0]}>{need(dearer, dearerMinor)}</td>
                <td data-label={heads[1]}>{need(cheaper, cheaperMinor)}</td>
                {showsPerOne && (
                  <td data-label={perOne}>
                    {dearerMinor === undefined || cheaperMinor === undefined
                      ? '–'
                      : figures.money(Math.round((one * (cheaperMinor - dearerMinor)) / moreMinor), true)}
                  </td>
                )}
                <td data-label={W.better}>
                  {isTold(dearer) && isTold(cheaper) ? (better ?? W.neither) : W.untoldShort}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </li>
  )
}

export const Savings = ({ shown, currency }: { shown: Shown; currency: string }) => (
  <section class="card">
    <h2>{W.saves}</h2>
    {shown.reach.savings.length === 0 ? (
      <p class="nothing">{W.oneOnly}</p>
    ) : (
      <ul class="ruled">
        {shown.reach.savings.map((saving) => (
          <SavingShown saving={saving} shown={shown} one={minorPerMajor(currency)} />
        ))}
      </ul>
    )}
  </section>
)
