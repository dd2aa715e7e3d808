import { asBounds, type Look } from '../core/reach/look.ts'
import type { PlatformReach } from '../core/reach/reach.ts'
import type { LookView } from '../uses/reach/looks.ts'
import { REACH_EN } from '../words/en/reach.ts'
import type { Figures } from '../words/figures.ts'
import {
  addedWords,
  cheapestWords,
  endNames,
  endWords,
  letterAt,
  levelWords,
  type Shown,
  scenarioWords,
  titleName,
  typedWords,
  untoldWords,
  upgradeWords,
} from '../words/reach.ts'
import { fill } from '../words/say.ts'
import { ReachSteps } from './pictures/reachSteps.tsx'
import { USUAL_SLOT_LANES } from './platformsForm.ts'
import { Savings } from './platformsSavings.tsx'
import { Heads, Named } from './platformsTable.tsx'
import { WhyShown } from './platformsWhy.tsx'
import { settingName } from './settingText.ts'

const W = REACH_EN.result

/** With the letter of the picture, once where the name is that letter. */
const letteredName = (name: string, at: number): string =>
  name === letterAt(at) ? name : `${letterAt(at)} ${name}`

type Props = { shown: Shown; look: Look }

const Asked = ({ shown }: { shown: Shown }) => {
  const { figures, reach, settings } = shown
  const { wanted, targetFps, upToMinor, display } = reach.ask
  const titles = wanted
    .map(({ titleId, settingId }) =>
      fill(W.title, { title: titleName(shown, titleId), setting: settingName(settings, settingId) }),
    )
    .join('; ')
  const asked = { titles, target: figures.fps(targetFps), upTo: figures.money(upToMinor) }
  return (
    <p>
      {fill(W.asked, asked)}{' '}
      {display.refreshHz !== undefined && fill(W.screen, { hz: figures.decimal(display.refreshHz) })}
    </p>
  )
}

const Level = ({ point, shown }: { point: PlatformReach['now']['points'][number]; shown: Shown }) => (
  <>
    {levelWords(point, shown)}
    {point.isBound && (
      <>
        <br />
        <small>{W.boundWhy}</small>
      </>
    )}
  </>
)

const Row = ({ platform, at, shown }: { platform: PlatformReach; at: number; shown: Shown }) => {
  const { figures, reach } = shown
  const { now, end, firstMinor, unpricedPartIds, resaleMinor, name } = platform
  const [today, best] = [now.points[0], now.points.at(-1)]
  const n = unpricedPartIds.length
  const level = (point: typeof today) =>
    point === undefined ? W.untoldShort : <Level point={point} shown={shown} />
  return (
    <tr>
      <td>
        <Named at={at} name={name} />
      </td>
      <td data-label={W.first}>
        {figures.money(firstMinor)}
        {n > 0 && (
          <>
            <br />
            <small>{n === 1 ? W.unpricedOne : fill(W.unpriced, { n: figures.number(n) })}</small>
          </>
        )}
      </td>
      <td data-label={W.today}>{level(today)}</td>
      <td data-label={fill(W.best, { upTo: figures.money(reach.ask.upToMinor) })}>{level(best)}</td>
      <td data-label={W.ends}>
        {today === undefined || (end.ends === 'money' && typedWords(name, shown) !== undefined)
          ? W.untoldShort
          : endNames(end)}
      </td>
      <td data-label={W.resale}>{figures.money(resaleMinor)}</td>
    </tr>
  )
}

const Compared = ({ shown, usualSlots }: { shown: Shown; usualSlots: readonly string[] }) => {
  const { figures, reach } = shown
  const best = fill(W.best, { upTo: figures.money(reach.ask.upToMinor) })
  return (
    <section class="card">
      <h2>{W.compare}</h2>
      {shown.reach.platforms.length > 1 &&
        cheapestWords(shown).map((line, n) => <p>{n === 0 ? <b>{line}</b> : line}</p>)}
      <Asked shown={shown} />
      <table class="list">
        <Heads first={W.platform} rest={[W.first, W.today, best, W.ends, W.resale]} />
        <tbody>
          {reach.platforms.map((platform, at) => (
            <Row platform={platform} at={at} shown={shown} />
          ))}
        </tbody>
      </table>
      {reach.platforms.map(({ now, name }, at) => {
        const untold = untoldWords(now, shown)
        return (
          untold !== undefined && (
            <p class="wrong">
              <Named at={at} name={name} />. {untold}
            </p>
          )
        )
      })}
      {reach.platforms.map(({ name }) => {
        const parts = typedWords(name, shown)
        return parts !== undefined && <p>{fill(W.typed, { name, parts })}</p>
      })}
      {usualSlots.length > 0 && (
        <p>{fill(W.usualSlot, { lanes: String(USUAL_SLOT_LANES), boards: usualSlots.join(', ') })}</p>
      )}
      <p class="hint">{W.resaleHow}</p>
    </section>
  )
}

const Steps = ({ shown }: { shown: Shown }) => (
  <section class="card">
    <h2>{W.picture}</h2>
    <ReachSteps reach={shown.reach} figures={shown.figures} />
    <details class="reach-steps">
      <summary>{W.steps}</summary>
      {shown.reach.platforms.map(({ name, now }, at) => (
        <>
          <h3>
            <Named at={at} name={name} />
          </h3>
          {now.points.length === 0 ? (
            <p>{untoldWords(now, shown)}</p>
          ) : (
            <table class="list">
              <Heads first={W.what} rest={[W.spend, W.runs]} />
              <tbody>
                {now.points.map((point) => (
                  <tr>
                    <td>{addedWords(point, shown)}</td>
                    <td data-label={W.spend}>{shown.figures.money(point.spendMinor)}</td>
                    <td data-label={W.runs}>
                      <Level point={point} shown={shown} />
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
        </>
      ))}
    </details>
  </section>
)

/** What it takes as things stand: the cheapest step that reaches what is wanted. */
const todayUpgrade = ({ now }: PlatformReach, targetFps: number): PlatformReach['firstUpgrade'] => {
  const reaches = ({ fps }: { fps: number }) => fps >= targetFps * (1 - 1e-9)
  const [today] = now.points
  if (today !== undefined && reaches(today)) return undefined
  const point = now.points.find(reaches)
  return { year: 0, ...(point && { spendMinor: point.spendMinor, point }) }
}

const Upgrades = ({ shown, look }: Props) => {
  const { reach, figures } = shown
  const { scenario, targetFps } = reach.ask
  const { years } = scenario
  const rows = [
    {
      ...{ words: W.nowOnly, years: 0 },
      upgrades: reach.platforms.map((platform) => todayUpgrade(platform, targetFps)),
    },
    ...look.apart.map((one) => ({
      words: scenarioWords(one.scenario, figures),
      ...{ years, upgrades: one.firstUpgrades.map(({ upgrade }) => upgrade) },
    })),
    ...(years === 0
      ? []
      : [
          {
            words: scenarioWords(scenario, figures),
            ...{ years, upgrades: reach.platforms.map(({ firstUpgrade }) => firstUpgrade) },
          },
        ]),
  ]
  return (
    <section class="card">
      <h2>{W.upgrade}</h2>
      <p>{fill(W.upgradeAbout, { target: figures.fps(targetFps) })}</p>
      <table class="list">
        <Heads first={W.scenario} rest={reach.platforms.map(({ name }, at) => letteredName(name, at))} />
        <tbody>
          {rows.map(({ words, years: within, upgrades }) => (
            <tr>
              <td>{words}</td>
              {reach.platforms.map(({ name, now }, at) => (
                <td data-label={letteredName(name, at)}>
                  {now.points.length === 0 ? W.untoldShort : upgradeWords(upgrades[at], within, shown)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {years > 0 && <p class="hint">{W.model}</p>}
    </section>
  )
}

const Roads = ({ shown }: { shown: Shown }) => (
  <section class="card">
    <h2>{W.roads}</h2>
    <p class="hint">{W.sureOnly}</p>
    <ul class="ruled">
      {shown.reach.platforms.map(({ name, end, now }, at) => (
        <li>
          <p>
            <Named at={at} name={name} />
          </p>
          <p>{now.points.length === 0 ? untoldWords(now, shown) : endWords({ name, end }, shown)}</p>
        </li>
      ))}
    </ul>
  </section>
)

export const LookShown = ({
  view,
  look,
  figures,
  currency,
}: {
  view: LookView
  look: Look
  figures: Figures
  currency: string
}) => {
  const { parts, titles, settings } = view
  const usualSlots = view.asked.typed.flatMap(({ kind, name }) => (kind === 'board' ? [name] : []))
  const typedIds = new Set(view.asked.typed.map(({ id }) => id))
  const unknown = view.asked.typed.filter(({ kind }) => kind === 'processor' || kind === 'card')
  const unknownIds = new Set(unknown.map(({ id }) => id))
  const neverRan = look.reach.ask.platforms.filter((one) =>
    one.parts.some(({ partId }) => unknownIds.has(partId)),
  )
  const { reach } = asBounds(look, new Set(neverRan.map(({ name }) => name)))
  const shown: Shown = { figures, parts, titles, settings, reach, typedIds }
  return (
    <>
      <Compared shown={shown} usualSlots={usualSlots} />
      <Steps shown={shown} />
      <Upgrades shown={shown} look={look} />
      <Roads shown={shown} />
      <Savings shown={shown} currency={currency} />
      <WhyShown shown={shown} />
    </>
  )
}
