import type { End, RawEnd, TitleGain } from '../core/gain/gain.ts'
import { isToRunAgain } from '../core/gain/useful.ts'
import { changesOfOption } from '../core/limitsBehind.ts'
import { displayOf } from '../core/question.ts'
import type { Option, PriceLine } from '../core/ranking/option.ts'
import { rankOfVerdict } from '../core/verdict.ts'
import { cautionsForOpening, sayCaution } from '../words/cautions.ts'
import { WHY_EN } from '../words/en/why.ts'
import { gainForReference, referenceOf } from '../words/options.ts'
import { fill } from '../words/say.ts'
import type { Shown } from './answerContext.ts'
import { FindingDetails } from './explain.tsx'
import { titleName } from './settingText.ts'

/** What each rule says, worst first: the owner's sentence, which opens to the numbers and sources behind it. */
export const Findings = ({ option, shown }: { option: Option; shown: Shown }) => {
  const changes = changesOfOption(option.change, option.findings)
  return (
    <ul class="ruled">
      {option.findings
        .toSorted((a, b) => rankOfVerdict(b.verdict) - rankOfVerdict(a.verdict))
        .map((finding) => (
          <li>
            <FindingDetails finding={finding} changes={changes} shown={shown} />
          </li>
        ))}
    </ul>
  )
}

const lineText = (line: PriceLine, option: Option, { answer, lookup, figures }: Shown): string => {
  const { ref } = line
  if (line.what === 'part') {
    const item = answer.inputs.shelf.find((i) => i.id === line.shelfItemId)
    const needed = option.companionPartIds.includes(ref) ? ', because the change needs it' : ''
    return `${lookup.partName(ref)}${item === undefined ? '' : `, ${item.condition}`}${needed}`
  }
  if (line.what === 'opening') return 'Opening the machine'
  if (line.what === 'fee') return 'The shop’s fee'
  if (line.what === 'tax')
    return `Sales tax, ${figures.ratePct(option.price.taxBp ?? 0)}, each line rounded by itself`
  if (line.what === 'fitting') return `Fitting: ${lookup.partName(ref)}`
  if (line.what === 'work') return `Work: ${ref}`
  return `Taken in exchange: ${lookup.partName(ref)}`
}

export const PriceLines = ({ option, shown }: { option: Option; shown: Shown }) => {
  const { lines, netMinor, taxIncludedMinor, taxBp = 0 } = option.price
  const unit = 10 ** shown.figures.minorDigits
  const exact = lines.some((line) => line.amountMinor % unit !== 0)
  return (
    <table class="price">
      <tbody>
        {lines.map((line) => (
          <tr>
            <th scope="row">
              {lineText(line, option, shown)}
              {line.minutes !== undefined && <small> {shown.figures.named('Minutes', line.minutes)}</small>}
            </th>
            <td class="right num">{shown.figures.money(line.amountMinor, exact)}</td>
          </tr>
        ))}
        <tr class="sum">
          <th scope="row">Net price</th>
          <td class="right num">{shown.figures.money(netMinor, exact)}</td>
        </tr>
        {taxIncludedMinor !== undefined && (
          <tr>
            <th scope="row">Of it sales tax, {shown.figures.ratePct(taxBp)}</th>
            <td class="right num">{shown.figures.money(taxIncludedMinor, true)}</td>
          </tr>
        )}
      </tbody>
    </table>
  )
}

const EndText = ({ end, raw, shown }: { end: End; raw: RawEnd | undefined; shown: Shown }) => {
  const { figures } = shown
  const runs = end.runIds.map((id, i) => (
    <>
      {i > 0 && ', '}
      <a href={`/runs/${encodeURIComponent(id)}`}>{id}</a>
    </>
  ))
  return (
    <>
      <span class="num">{figures.decimal(end.averageFps)} FPS</span>
      {end.low1Fps !== undefined && (
        <>
          {', 1% low '}
          <span class="num">{figures.decimal(end.low1Fps)} FPS</span>
        </>
      )}
      {end.runIds.length === 0 ? (
        ` (${WHY_EN.estimate})`
      ) : (
        <>
          {' ('}
          {raw !== undefined && fill(WHY_EN.alone, { fps: figures.decimal(raw.averageFps) })}
          {end.runIds.length === 1 ? 'run ' : 'runs '}
          {runs}, {end.runIds.length > 1 && 'latest '}
          {figures.shortDate(end.at)},{' '}
          {end.onThisMachine ? 'on this machine' : 'on another machine with these parts'})
        </>
      )}
    </>
  )
}

/** Both ends of a title's gain with their runs, for an answer without a model that could say more. */
export const EndsByRuns = ({ gain, shown }: { gain: TitleGain; shown: Shown }) => {
  const { figures } = shown
  if (gain.grade === 'no number') return null
  return (
    <section>
      <dl class="ends">
        <dt>{WHY_EN.today}</dt>
        <dd>
          <EndText end={gain.before} raw={gain.raw?.before} shown={shown} />
        </dd>
        <dt>{WHY_EN.after}</dt>
        <dd>
          <EndText end={gain.after} raw={gain.raw?.after} shown={shown} />
        </dd>
      </dl>
      <p>
        {fill(WHY_EN.quotient, {
          after: figures.decimal(gain.after.averageFps),
          before: figures.decimal(gain.before.averageFps),
          rise: figures.gainPct((Math.exp(gain.logGain) - 1) * 100),
          low: figures.decimal(gain.afterFpsLow),
          high: figures.decimal(gain.afterFpsHigh),
        })}
      </p>
    </section>
  )
}

/** Titles that do not count in the useful gain, by why, and those that count and are to be run again. */
export function leftOutOf({ gains, useful }: Option) {
  const missing = new Set(useful?.missingTitleIds ?? [])
  const counted = new Set(useful?.countedTitleIds ?? [])
  const isTorn = (gain: TitleGain) => gain.grade !== 'no number' && gain.disagrees
  const of = (is: (gain: TitleGain) => boolean) => [
    ...new Set(gains.filter(is).map(({ titleId }) => titleId)),
  ]
  return {
    without: of((gain) => missing.has(gain.titleId) && !isTorn(gain)),
    disagrees: of((gain) => missing.has(gain.titleId) && isTorn(gain)),
    runAgain: of((gain) => counted.has(gain.titleId) && isToRunAgain(gain)),
  }
}

/** How the gain over all titles comes of the single ones. */
export const UsefulText = ({ option, shown }: { option: Option; shown: Shown }) => {
  const { figures, answer } = shown
  const { question, titles } = answer.inputs
  const { useful } = option
  const perMoney = gainForReference(option, answer)
  if (useful === undefined) return null
  const weights = useful.countedTitleIds.map((id) => {
    const weight = question.wanted.find((w) => w.titleId === id)?.weight ?? 1
    return `${titleName(titles, id)}${weight === 1 ? '' : ` (counts ${figures.decimal(weight)} times)`}`
  })
  const hz = displayOf(question).refreshHz
  const { without, disagrees, runAgain } = leftOutOf(option)
  const named = (ids: readonly string[]) => ids.map((id) => titleName(titles, id)).join(', ')
  return (
    <p>
      Useful gain: the weighted geometric mean of after ÷ before over {weights.join(', ')}
      {hz === undefined
        ? '. The display is not known, so nothing is capped'
        : `, each frame rate counted up to the ${hz} the display shows`}
      . That is {figures.gainPct(useful.pct)}; without the display it would be{' '}
      {figures.gainPct(useful.uncappedPct)}.
      {without.length > 0 && ` ${fill(WHY_EN.useful.without, { titles: named(without) })}`}
      {disagrees.length > 0 && ` ${fill(WHY_EN.useful.disagrees, { titles: named(disagrees) })}`}
      {runAgain.length > 0 && ` ${fill(WHY_EN.useful.runAgain, { titles: named(runAgain) })}`}
      {perMoney !== undefined &&
        ` ${figures.gainPct(useful.pct)} for ${figures.money(option.price.netMinor)} is ${figures.decimal(perMoney)} percent for each ${figures.money(referenceOf(answer))}.`}
    </p>
  )
}

/** What an option costs, and what each rule says to it. */
export const PriceAndRules = ({ option, shown }: { option: Option; shown: Shown }) => (
  <>
    <section class="card">
      <h2>{WHY_EN.price}</h2>
      <PriceLines option={option} shown={shown} />
    </section>
    <section class="card">
      <h2>{WHY_EN.rules}</h2>
      <Findings option={option} shown={shown} />
    </section>
  </>
)

/** What to mind before hands go into the machine. */
export const HandsIn = ({ option }: { option: Option }) => (
  <section class="card">
    <h2>{WHY_EN.handsIn}</h2>
    <ul>
      {cautionsForOpening(option.findings.flatMap((f) => f.cautions)).map((id) => (
        <li>{sayCaution(id).short}</li>
      ))}
    </ul>
  </section>
)
