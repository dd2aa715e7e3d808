import type { Context, Hono } from 'hono'
import { whole } from '../input/cells.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { OfferRulesView } from '../uses/outbox/outboxViews.ts'
import { OUTBOX_EN } from '../words/en/outbox.ts'
import { Field, ProblemSummary, type Typed, typedOf } from './form.tsx'
import { readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

const w = OUTBOX_EN.settings

const LABELS: Readonly<Record<string, string>> = {
  quietFromHour: w.from,
  quietUntilHour: w.until,
  capOffers: w.cap,
  capDays: w.days,
}

type Props = { view: OfferRulesView; typed: Typed; problems: readonly Problem[] }

const Body = ({ view: { shop }, ...shared }: Props) => (
  <article class="card">
    <h1>{w.head}</h1>
    <p>{w.about}</p>
    <form method="post" action="/outbox/rules" class="form">
      <ProblemSummary problems={shared.problems} labels={(field) => LABELS[field]} />
      <div class="grid">
        <Field name="quietFromHour" label={w.from} hint={w.hour} inputmode="numeric" narrow {...shared} />
        <Field name="quietUntilHour" label={w.until} inputmode="numeric" narrow {...shared} />
        <Field name="capOffers" label={w.cap} inputmode="numeric" narrow {...shared} />
        <Field name="capDays" label={w.days} inputmode="numeric" narrow {...shared} />
      </div>
      <p>
        {w.address}: <b>{shop.address.trim() === '' ? w.noAddress : shop.address}</b>.{' '}
        <a href="/settings">{w.addressWhere}</a>
      </p>
      <p class="actions">
        <button class="button" type="submit">
          {w.save}
        </button>
        <a href="/outbox">{OUTBOX_EN.head}</a>
      </p>
    </form>
  </article>
)

const typedFrom = ({ rules }: OfferRulesView): Typed =>
  new Map(Object.entries(rules).map(([name, n]) => [name, [String(n)]]))

/** What holds offers back besides consent. */
export function outboxRulesRoutes(app: Hono, { uses, options }: Web): void {
  const show = (c: Context, props: Props) => {
    const [first] = props.problems
    return page(
      c,
      { title: w.head, place: 'Outbox', demo: options.demo, shopName: props.view.shop.name },
      <Body {...props} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/outbox/rules', async (c) => {
    const view = await uses.offerRules()
    return show(c, { view, typed: typedFrom(view), problems: [] })
  })

  app.post('/outbox/rules', async (c) => {
    const view = await uses.offerRules()
    const typed = typedOf(await readForm(c))
    const { need, problems } = fieldReader(typed, readingFor(view.shop))
    const quietFromHour = need('quietFromHour', whole(0, 23), w.hourRange)
    const quietUntilHour = need('quietUntilHour', whole(0, 23), w.hourRange)
    const capOffers = need('capOffers', whole(1, 100), w.capRange)
    const capDays = need('capDays', whole(1, 400), w.daysRange)
    if (
      quietFromHour === undefined ||
      quietUntilHour === undefined ||
      capOffers === undefined ||
      capDays === undefined
    )
      return show(c, { view, typed, problems })
    const saved = await uses.saveOfferRules({ quietFromHour, quietUntilHour, capOffers, capDays })
    return saved.ok ? c.redirect('/outbox/rules', 303) : show(c, { view, typed, problems: saved.problems })
  })
}
