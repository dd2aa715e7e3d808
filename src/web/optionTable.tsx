import { beatenBy } from '../core/ranking/beaten.ts'
import type { Option } from '../core/ranking/option.ts'
import { sayBeaten } from '../words/beaten.ts'
import { WHY_EN } from '../words/en/why.ts'
import { sayFinding } from '../words/findings.ts'
import {
  gainForReference,
  gradeWords,
  optionWords,
  pickWords,
  priceWords,
  referenceOf,
} from '../words/options.ts'
import { pathToWhy, pathWithOption, type Shown, soundOf } from './answerContext.ts'
import { ListEnd, listed } from './listEnd.tsx'
import { VerdictMark } from './mark.tsx'
import { titleName } from './settingText.ts'
import { leftOutOf } from './why.tsx'
import { touchedWords, YesLink } from './yesLink.tsx'

/** Options shown at once; the rest opens on demand, picks and steps of the stair always show. */
const SHOWN_AT_FIRST = 5

/** Condition and number of what goes in; where several go in, each behind its own name. */
const Conditions = ({ option, shown }: { option: Option; shown: Shown }) => {
  const { answer, lookup } = shown
  const inOrder = option.change.add.map((part) => part.id)
  const items = [...new Set(option.shelfItemIds)]
    .flatMap((id) => answer.inputs.shelf.find((item) => item.id === id) ?? [])
    .sort((a, b) => inOrder.indexOf(a.partId) - inOrder.indexOf(b.partId))
  return (
    <>
      {items.map((item) => {
        const text = `${item.condition}, ${item.quantity} on the shelf`
        return items.length === 1 ? (
          <small> {text}</small>
        ) : (
          <small class="block">
            {lookup.partName(item.partId)}: {text}
          </small>
        )
      })}
    </>
  )
}

/** The worst finding's sentence stands in the row; the others wait in the details. */
const BoardSays = ({ option, shown }: { option: Option; shown: Shown }) => {
  const worst = option.findings.filter((f) => f.verdict === option.verdict)
  const first = worst[0]
  return (
    <>
      <VerdictMark verdict={option.verdict} />
      {first !== undefined && (
        <small class="block">{sayFinding(first, shown.figures, shown.lookup).owner}</small>
      )}
      {option.verdict !== 'fits' && worst.length > 1 && (
        <small class="block">
          and {worst.length - 1} more {worst.length === 2 ? 'reason' : 'reasons'}
        </small>
      )}
    </>
  )
}

const Gain = ({ option, shown: { figures } }: { option: Option; shown: Shown }) => {
  const { useful } = option
  if (useful === undefined) return <>–</>
  return (
    <>
      {figures.gainPct(useful.pct)}
      <small class="block">
        {figures.number(Math.floor(useful.pctLow))} to {figures.number(Math.ceil(useful.pctHigh))}
      </small>
    </>
  )
}

/** The amount of money that the last column counts by. */
const perMoney = ({ figures, answer }: Shown): string => figures.money(referenceOf(answer))

const tieText = (option: Option, shown: Shown): string | undefined => {
  const { ranked, groups } = shown.answer.ranking
  const others = groups.find((ids) => ids.includes(option.id))?.filter((id) => id !== option.id) ?? []
  const rows = others.map((id) => ranked.findIndex((o) => o.id === id) + 1).filter((n) => n > 0)
  return rows.length === 0 ? undefined : `tie with ${rows.join(', ')}`
}

const Row = ({ option, number, shown }: { option: Option; number: number; shown: Shown }) => {
  const { answer, figures } = shown
  const isLead = shown.lead?.id === option.id
  const grade = gradeWords(option)
  const tie = tieText(option, shown)
  const gain = gainForReference(option, answer)
  const beaten = beatenBy(answer.ranking, option)
  const { without, disagrees, runAgain } = leftOutOf(option)
  const again = [...disagrees, ...runAgain]
  const namesOf = (ids: readonly string[]) => ids.map((id) => titleName(answer.inputs.titles, id)).join(', ')
  return (
    <>
      <tr class={isLead ? 'option lead' : 'option'}>
        <td class="what">
          <span class="num row-number">{number}</span>
          <div>
            <b>{optionWords(option, answer.inputs.parts)}</b>
            <Conditions option={option} shown={shown} />
            <span class="marks-line">
              <span class={grade === 'measured' ? 'grade sure' : 'grade'}>{grade}</span>
              {pickWords(option, answer).map((pick) => (
                <span class="pick">{pick}</span>
              ))}
              {without.length > 0 && <small>no number in {namesOf(without)}</small>}
              {again.length > 0 && <small>to be run again: {namesOf(again)}</small>}
              {beaten !== undefined && <small>{sayBeaten(beaten, figures)}</small>}
              {!option.worthTheVisit && <small>below the smallest gain worth a visit</small>}
              {!option.withinBudget && <small>above the budget</small>}
            </span>
          </div>
        </td>
        <td class="says">
          <BoardSays option={option} shown={shown} />
          {soundOf(shown, option).map((text) => (
            <small class="block">{text}</small>
          ))}
        </td>
        <td class="right num" data-label="Useful gain">
          <Gain option={option} shown={shown} />
        </td>
        <td class="right num" data-label="Net price">
          {priceWords(option, figures)}
        </td>
        <td class="right num" data-label={`For ${perMoney(shown)}`}>
          {option.price.paysForItself ? (
            <small>pays for itself</small>
          ) : option.price.costsNothing ? (
            <small>costs nothing</small>
          ) : gain === undefined ? (
            '–'
          ) : (
            <b>{figures.gainPct(gain)}</b>
          )}
          {tie !== undefined && <small class="block">{tie}</small>}
        </td>
      </tr>
      <tr class={isLead ? 'why lead' : 'why'}>
        <td colspan={5}>
          {touchedWords(answer, option, figures).map((text) => (
            <small class="block">{text}</small>
          ))}
          <a href={pathToWhy(shown, option)}>
            {WHY_EN.head}
            <span class="unseen"> Row {number}</span>
          </a>
          <YesLink option={option} shown={shown} />
          {!isLead && (
            <a href={pathWithOption(shown, option)}>
              Show in the pictures<span class="unseen">: row {number}</span>
            </a>
          )}
        </td>
      </tr>
    </>
  )
}

type Numbered = { option: Option; number: number }

const Table = ({ rows, shown, label }: { rows: readonly Numbered[]; shown: Shown; label: string }) => (
  <table class="options" aria-label={label}>
    <thead>
      <tr>
        <th scope="col">What goes in</th>
        <th scope="col">Board says</th>
        <th scope="col" class="right">
          Useful gain
        </th>
        <th scope="col" class="right">
          Net price
        </th>
        <th scope="col" class="right">
          Gain for {perMoney(shown)}
        </th>
      </tr>
    </thead>
    <tbody>
      {rows.map(({ option, number }) => (
        <Row option={option} number={number} shown={shown} />
      ))}
    </tbody>
  </table>
)

/** What stands in the fold. */
const foldedWords = (shownAlready: number, rest: readonly Numbered[]): string => {
  const options = rest.length === 1 ? 'option' : 'options'
  const bringLittle = rest.every(({ option }) => !option.worthTheVisit)
  const little = bringLittle ? ' below the smallest gain worth a visit' : ''
  return shownAlready === 0
    ? `Show what was looked at: ${rest.length} ${options}${little}`
    : `Show ${rest.length} more ${options}${little}`
}

/** The ranked options, best gain for the money first. */
export const OptionTable = ({ shown }: { shown: Shown }) => {
  const { ranking } = shown.answer
  const always = new Set([
    ranking.bestPerMoneyId,
    ranking.bestInBudgetId,
    ranking.cheapestToTargetId,
    shown.lead?.id,
  ])
  const rows = ranking.ranked.map((option, i) => ({ option, number: i + 1 }))
  // What brings too little to come for is looked at by who wants to, unless it is the answer itself.
  const isWorth = (option: Option) => option.worthTheVisit || option.id === shown.lead?.id
  const worth = rows.filter(({ option }) => isWorth(option))
  // What was asked for comes first; of what costs more only the picks are news.
  const inBudget = worth.filter(({ option }) => option.withinBudget)
  const within = inBudget.filter(({ option }, i) => i < SHOWN_AT_FIRST || always.has(option.id))
  const above = worth.filter(({ option }) => !option.withinBudget && always.has(option.id))
  const rest = rows.filter((row) => !within.includes(row) && !above.includes(row))
  return (
    <>
      {within.length > 0 && (
        <Table rows={within} shown={shown} label="Options, best gain for the money first" />
      )}
      {above.length > 0 && (
        <>
          <h2>Above the budget</h2>
          <Table rows={above} shown={shown} label="Options above the budget" />
        </>
      )}
      {rest.length > 0 && (
        <details class="more">
          <summary>{foldedWords(within.length + above.length, rest)}</summary>
          <Table rows={listed(rest, shown)} shown={shown} label="More options" />
          <ListEnd of={rest} shown={shown} />
        </details>
      )}
    </>
  )
}
