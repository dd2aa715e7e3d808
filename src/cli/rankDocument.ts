import type { Answer } from '../core/answer.ts'
import { minorDigitsOf } from '../core/currency.ts'
import type { Later } from '../core/ranking/later.ts'
import type { Option, RuledOut } from '../core/ranking/option.ts'
import type { SpaceRow } from '../core/ranking/space.ts'
import type { WhyNot } from '../core/ranking/whyNot.ts'

/** Raised when a field changes its meaning or goes; fields may be added. Described by rank.schema.json. */
export const RANK_DOCUMENT = { format: 'stillfits rank', version: 1 } as const

const optionOf = (option: Option) => {
  const { id, change, shelfItemIds, companionPartIds, verdict, price, useful, pctPer100 } = option
  return {
    ...{
      id,
      verdict,
      parts: change.add.map((part) => part.id),
      removes: change.removeIds,
      work: change.work,
    },
    ...{ shelfItems: shelfItemIds, companions: companionPartIds },
    findings: option.findings
      .filter((finding) => finding.verdict !== 'fits')
      .map((finding) => ({ rule: finding.rule, verdict: finding.verdict, values: finding.values })),
    price: price.lines.map(({ what, ref, shelfItemId, amountMinor, taxMinor }) => ({
      ...{ what, ref, amountMinor },
      ...(shelfItemId !== undefined && { shelfItem: shelfItemId }),
      ...(taxMinor !== undefined && { taxMinor }),
    })),
    ...{ netMinor: price.netMinor, paysForItself: price.paysForItself, unpriced: price.unpriced },
    ...(price.taxIncludedMinor !== undefined && { taxIncludedMinor: price.taxIncludedMinor }),
    ...(useful !== undefined && {
      gain: {
        ...{ pct: useful.pct, pctLow: useful.pctLow, pctHigh: useful.pctHigh, grade: useful.grade },
        ...{ uncappedPct: useful.uncappedPct },
        ...{ countedTitles: useful.countedTitleIds, missingTitles: useful.missingTitleIds },
      },
    }),
    ...(pctPer100 !== undefined && { pctPer100 }),
    ...{ withinBudget: option.withinBudget, titlesAtTarget: option.titlesAtTarget },
    worthTheVisit: option.worthTheVisit,
  }
}

const spaceShown = ({
  shelfItemId,
  partId,
  verdict,
  capacityGB,
  size,
  price,
  minorPerGB,
  besidePick,
}: SpaceRow) => ({
  ...{ shelfItem: shelfItemId, part: partId, verdict },
  ...(capacityGB !== undefined && { capacityGB }),
  ...(size !== undefined && { size }),
  ...(price !== undefined && { netMinor: price.netMinor }),
  ...(minorPerGB !== undefined && { minorPerGB }),
  ...(besidePick !== undefined && {
    besidePick: {
      ...{ option: besidePick.optionId, verdict: besidePick.verdict, moreMinor: besidePick.moreMinor },
      rules: besidePick.findings.map(({ rule }) => rule),
    },
  }),
})

const laterShown = ({ wait, save }: Later) => ({
  ...(wait !== undefined && {
    wait: {
      wins: wait.wins,
      for: wait.for.map(({ findable, partId, priceMinor, option, needs, isOld }) => ({
        ...{ findable: findable.id, part: partId, needs, isOld, option: optionOf(option) },
        ...(priceMinor !== undefined && { buyBelowMinor: priceMinor }),
      })),
      fallen: wait.fallen.map(({ itemId, from, to }) => ({
        ...{ shelfItem: itemId, fromMinor: from.priceMinor, fromAt: from.at },
        ...{ toMinor: to.priceMinor, toAt: to.at },
      })),
    },
  }),
  ...(save !== undefined && {
    save: {
      ...{ state: save.state, runs: save.runIds, stops: save.stops },
      ...(save.platform !== undefined && { platform: optionOf(save.platform) }),
      ...(save.missingMinor !== undefined && { missingMinor: save.missingMinor }),
      ...(save.upgrade !== undefined && { upgrade: optionOf(save.upgrade) }),
    },
  }),
})

const outOf = ({ shelfItemId, partId, verdict, findings, wish, lacking }: RuledOut) => ({
  ...{ shelfItem: shelfItemId, part: partId, verdict, lacking },
  findings: findings.map((finding) => ({
    rule: finding.rule,
    verdict: finding.verdict,
    values: finding.values,
  })),
  ...(wish !== undefined && { wish }),
})

const whyNotOf = (told: WhyNot) => ({
  ...{ part: told.part.id, place: told.place },
  ...(told.priceMinor !== undefined && { priceMinor: told.priceMinor }),
  ...('option' in told && { option: optionOf(told.option) }),
  ...(told.place === 'ranked' && { of: told.of }),
  ...(told.place === 'ranked' && told.number !== undefined && { number: told.number }),
  ...(told.place === 'ranked' && told.better !== undefined && { better: told.better.id }),
  ...(told.place === 'ruled out' && { out: outOf(told.out) }),
  ...(told.cheaper !== undefined && { cheaperShelfItem: told.cheaper.id }),
  ...(told.pick !== undefined && { pick: told.pick.id }),
  prices: told.prices.map(({ aim, priceMinor, option, beats }) => ({
    ...{ aim, option: option.id },
    ...(priceMinor !== undefined && { priceMinor }),
    ...(beats !== undefined && { beats: beats.id }),
  })),
})

/** What stands beside a ranking, where there is any of it: how loud, drives, and what can be done instead of buying. */
export const besideShown = ({ sound, space, later }: Answer) => ({
  ...(sound !== undefined && { sound }),
  ...(space !== undefined && { space: space.map(spaceShown) }),
  ...(later !== undefined && { later: laterShown(later) }),
})

/** A ranking as a document for other programs; the schema beside this file describes it. */
export function rankDocument(answer: Answer, told: WhyNot | undefined) {
  const { inputs, ranking, versions, at } = answer
  const { question, shop } = inputs
  const { currency } = shop.policy
  const { bestPerMoneyId, bestInBudgetId, cheapestToTargetId } = ranking
  return {
    ...RANK_DOCUMENT,
    ...{ at, versions, question: question.id, machine: question.machineTag, targetFps: question.targetFps },
    ...{ currency, minorDigits: minorDigitsOf(currency) },
    ...(question.budgetMinor !== undefined && { budgetMinor: question.budgetMinor }),
    ...(inputs.gainFailed === true && { gainFailed: true }),
    ...besideShown(answer),
    options: ranking.ranked.map(optionOf),
    frontier: ranking.frontierIds,
    ties: ranking.groups.filter((group) => group.length > 1),
    paysForItself: ranking.ranked.filter((option) => option.price.paysForItself).map(({ id }) => id),
    ...(bestPerMoneyId !== undefined && { bestPerMoney: bestPerMoneyId }),
    ...(bestInBudgetId !== undefined && { bestInBudget: bestInBudgetId }),
    ...(cheapestToTargetId !== undefined && { cheapestToTarget: cheapestToTargetId }),
    withoutNumber: ranking.withoutNumber.map(optionOf),
    needsAFact: ranking.needsAFact.map(optionOf),
    checkFirst: ranking.checkFirst.map(({ option, limits }) => ({ option: optionOf(option), limits })),
    ruledOut: ranking.ruledOut.map(outOf),
    ...(told !== undefined && { whyNot: whyNotOf(told) }),
  }
}
