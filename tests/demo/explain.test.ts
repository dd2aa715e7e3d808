import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Change } from '../../src/core/build.ts'
import type { Finding } from '../../src/core/fit/finding.ts'
import { changesOfOption, changesOfPart, limitsBehind } from '../../src/core/limitsBehind.ts'
import { explainFinding } from '../../src/words/explain.ts'
import { figuresFor } from '../../src/words/figures.ts'
import { type DemoShop, openDemoShop, QUESTIONS } from './openDemoShop.ts'

let shop: DemoShop
beforeAll(async () => {
  shop = await openDemoShop()
})
afterAll(async () => {
  await shop.close()
})

test.each(QUESTIONS)('%s: every finding opens to headings for its values and to the limits it read', (id) => {
  const answer = shop.answerTo(id)
  const { ranked, withoutNumber, needsAFact, ruledOut } = answer.ranking
  const ofOptions = [...ranked, ...withoutNumber, ...needsAFact].flatMap((option) =>
    option.findings.map((f) => [f, changesOfOption(option.change, option.findings)] as const),
  )
  const ofShelf = ruledOut.flatMap((out) => {
    const part = answer.inputs.parts.find((p) => p.id === out.partId)
    return out.findings.map((f) => [f, changesOfPart(part, answer)] as const)
  })
  const all: readonly (readonly [Finding, readonly Change[]])[] = [...ofOptions, ...ofShelf]
  expect(all.length).toBeGreaterThan(0)
  const figures = figuresFor(answer.inputs.shop)
  for (const [finding, changes] of all) {
    const behind = limitsBehind(answer, finding, changes)
    expect(behind, `${finding.rule} ${finding.verdict}`).toBeDefined()
    const { values, source } = explainFinding(finding, behind, figures)
    for (const { label } of values) expect(label).toMatch(/^[A-Z\d]/)
    expect(source.text.length).toBeGreaterThan(10)
  }
})
