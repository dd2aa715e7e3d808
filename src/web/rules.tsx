import type { Hono } from 'hono'
import { RULES_VERSION } from '../core/fit/rules.ts'
import { type RuleSheetRow, ruleSheet } from '../words/rules.ts'
import type { Web } from './frame.ts'
import { page } from './layout.tsx'

const Row = ({ rule }: { rule: RuleSheetRow }) => (
  <tr id={`rule-${rule.id}`}>
    <td>
      <div>
        <b>{rule.says}</b>
        <small class="block num">{rule.id}</small>
      </div>
    </td>
    <td data-label="Reads">
      {rule.reads.length === 0 ? 'the parts alone' : rule.reads.join(', ')}
      {rule.mayRead.length > 0 && <small class="block">where known: {rule.mayRead.join(', ')}</small>}
    </td>
    <td data-label="Thresholds">
      {rule.thresholds.length === 0
        ? 'what the parts say'
        : rule.thresholds.map((threshold) => <span class="block">{threshold}</span>)}
    </td>
    <td data-label="Source">
      {rule.source.text}
      <small class="block">{rule.source.kind}</small>
    </td>
  </tr>
)

/** Every rule with what it reads, where it turns and who says so; drawn from the rules themselves. */
export function rulesRoutes(app: Hono, { uses, options }: Web): void {
  app.get('/rules', async (c) => {
    const shop = await uses.shop()
    const rules = ruleSheet()
    return page(
      c,
      { title: 'Rules', demo: options.demo, shopName: shop.name },
      <section class="card">
        <h1>What every change is held against</h1>
        <p class="soft">
          {rules.length} rules, version {RULES_VERSION}. A change is as good as the worst of its findings; a
          fact that nobody knows makes “can’t tell”, never “fits”.
        </p>
        <table class="list rules">
          <thead>
            <tr>
              <th scope="col">Rule</th>
              <th scope="col">Reads</th>
              <th scope="col">Thresholds</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {rules.map((rule) => (
              <Row rule={rule} />
            ))}
          </tbody>
        </table>
      </section>,
    )
  })
}
