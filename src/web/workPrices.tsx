import type { Context, Hono } from 'hono'
import { PART_KINDS } from '../core/part.ts'
import { FEE_WORK, fittingWork, OPENING_WORK, type WorkPrice } from '../core/shop.ts'
import { type Reading, writeCell } from '../input/cells.ts'
import { WORKS, workTable } from '../input/tables/shop.ts'
import { failed, ok, type Problem, type Result, STATUS_OF } from '../problem.ts'
import { WORK_PRICES_EN } from '../words/en/workPrices.ts'
import { workName } from '../words/job.ts'
import { capital, fill, formOf } from '../words/say.ts'
import { Field, ProblemSummary, type Typed, textOf, typedOf } from './form.tsx'
import { readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { readForm } from './readForm.ts'
import { fieldReader } from './typed.ts'

const W = WORK_PRICES_EN
const { minutes: MINUTES, price: PRICE } = workTable.columns

const FITTING: readonly string[] = PART_KINDS.map(fittingWork)
const VISIT: readonly string[] = [OPENING_WORK, FEE_WORK]
const GROUPS = [
  [W.groups.visit, VISIT],
  [W.groups.fitting, FITTING],
  [W.groups.other, WORKS.filter((work) => !VISIT.includes(work) && !FITTING.includes(work))],
] as const

const nameOf = (work: string): string => (work === FEE_WORK ? W.fee : capital(workName(work), 'en'))

/** Words for a field such as `price.opening`. */
function labelOf(field: string): string | undefined {
  const work = WORKS.find((one) => field === `price.${one}` || field === `minutes.${one}`)
  if (work === undefined) return undefined
  return fill(W.ofWork, { work: nameOf(work), field: field.startsWith('price.') ? W.price : W.minutes })
}

type FormProps = { readonly typed: Typed; readonly problems: readonly Problem[] }

/** A fee takes no time. */
const Work = ({ work, ...form }: FormProps & { work: string }) => (
  <fieldset>
    <legend>{nameOf(work)}</legend>
    <div class="row">
      <Field {...form} name={`price.${work}`} label={W.price} inputmode="decimal" narrow />
      {work !== FEE_WORK && (
        <Field {...form} name={`minutes.${work}`} label={W.minutes} inputmode="decimal" narrow />
      )}
    </div>
  </fieldset>
)

/** What was typed, or everything that is wrong with it; a work of which both are empty has no price. */
function pricesFrom(typed: Typed, reading: Reading): Result<readonly WorkPrice[]> {
  const reader = fieldReader(typed, reading)
  const prices = WORKS.flatMap((work): WorkPrice[] => {
    const [price, minutes] = [`price.${work}`, `minutes.${work}`]
    if (textOf(typed, price) === undefined && textOf(typed, minutes) === undefined) return []
    const priceMinor = reader.need(price, PRICE.cell, W.needPrice)
    const taken = work === FEE_WORK ? 0 : reader.need(minutes, MINUTES.cell, W.needMinutes)
    return priceMinor === undefined || taken === undefined ? [] : [{ work, minutes: taken, priceMinor }]
  })
  return reader.problems.length > 0 ? failed(...reader.problems) : ok(prices)
}

const typedFrom = (prices: readonly WorkPrice[], reading: Reading): Typed =>
  new Map(
    prices.flatMap(({ work, minutes, priceMinor }) => [
      [`price.${work}`, [writeCell(PRICE.cell, priceMinor, reading)]] as const,
      [`minutes.${work}`, [writeCell(MINUTES.cell, minutes, reading)]] as const,
    ]),
  )

const DID = ['saved', 'undone', 'same'] as const
type Did = (typeof DID)[number]

/** Labour and works, each with its minutes and its price. */
export function workPriceRoutes(app: Hono, { uses, options }: Web): void {
  type Given = {
    typed?: Typed
    problems: readonly Problem[]
    did?: Did | undefined
    edit?: string | undefined
  }

  const show = async (c: Context, { typed, problems, did, edit }: Given) => {
    const [shop, { prices, mark }] = await Promise.all([uses.shop(), uses.workPrices()])
    const form = { typed: typed ?? typedFrom(prices, readingFor(shop)), problems }
    const priced = new Set(prices.map(({ work }) => work))
    const unpriced = WORKS.filter((work) => work !== FEE_WORK && !priced.has(work)).length
    const first = problems[0]
    return page(
      c,
      { title: W.title, place: 'Settings', demo: options.demo, shopName: shop.name },
      <article class="card form">
        <h1>{W.title}</h1>
        {did !== undefined && (
          <div class="done" role="status">
            <p>
              <b>{W.did[did]}</b>
            </p>
            {edit !== undefined && (
              <form method="post" action="/settings/work/undo">
                <input type="hidden" name="edit" value={edit} />
                <button class="button quiet" type="submit">
                  {W.undo}
                </button>
              </form>
            )}
          </div>
        )}
        <ProblemSummary problems={problems} labels={labelOf} />
        <p class="hint">
          {W.lead}{' '}
          {unpriced > 0 &&
            fill(formOf(W.unpriced, unpriced, new Intl.PluralRules('en')), { n: String(unpriced) })}
        </p>
        <form method="post" action="/settings/work">
          <input type="hidden" name="seen" value={mark} />
          {GROUPS.map(([head, works]) => (
            <>
              <h2>{head}</h2>
              <div class="grid">
                {works.map((work) => (
                  <Work {...form} work={work} />
                ))}
              </div>
            </>
          ))}
          <p class="actions">
            <button class="button" type="submit">
              {W.save}
            </button>
            <a href="/settings">{W.back}</a>
          </p>
        </form>
      </article>,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }
  const to = (c: Context, did: Did, editId: string | undefined) =>
    c.redirect(
      `/settings/work?did=${did}${editId === undefined ? '' : `&edit=${encodeURIComponent(editId)}`}`,
      303,
    )

  app.get('/settings/work', (c) =>
    show(c, {
      ...{ problems: [], edit: c.req.query('edit') },
      did: DID.find((did) => did === c.req.query('did')),
    }),
  )

  app.post('/settings/work', async (c) => {
    const typed = typedOf(await readForm(c))
    const read = pricesFrom(typed, readingFor(await uses.shop()))
    const saved = read.ok ? await uses.saveWorkPrices(read.value, textOf(typed, 'seen')) : read
    if (!saved.ok) return show(c, { typed, problems: saved.problems })
    return to(c, saved.value.editId === undefined ? 'same' : 'saved', saved.value.editId)
  })

  app.post('/settings/work/undo', async (c) => {
    const edit = textOf(typedOf(await readForm(c)), 'edit') ?? ''
    const undone = await uses.undoWorkPrices(edit)
    return undone.ok ? to(c, 'undone', undone.value.editId) : show(c, { problems: undone.problems })
  })
}
