import type { Context, Hono } from 'hono'
import { LANGUAGES } from '../core/language.ts'
import { lines, whole } from '../input/cells.ts'
import type { Problem } from '../problem.ts'
import { STATUS_OF } from '../problem.ts'
import { type CustomerView, TOLD_BY } from '../uses/customerViews.ts'
import { CONSENT_EN } from '../words/en/consent.ts'
import { CUSTOMER_EN } from '../words/en/customer.ts'
import type { Figures } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { mayDo, nameOf, who } from './access/who.ts'
import { EraseShown } from './eraseShown.tsx'
import { Field, FieldProblems, idOf, ProblemSummary, Select, type Typed, textOf, typedOf } from './form.tsx'
import { figuresOf, param, pathTo, readingFor, type Web } from './frame.ts'
import { KeepRemindersPart } from './keepReminders.tsx'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { askedOf, Find, listPath, Pages, pieceAt } from './pages.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'
import { RecordShown } from './recordShown.tsx'
import { fieldReader } from './typed.ts'

const w = CUSTOMER_EN
const labels = (field: string) => w.labels[field]

/** Whether offers may go there, since when and in which words. */
const Standing = ({ view, figures }: { view: CustomerView; figures: Figures }) => {
  const { offers, record } = view
  const values = offers && { date: figures.date(offers.at), source: CONSENT_EN.sources[offers.source] }
  return (
    <>
      <p>
        <b>
          {values === undefined ? w.mayNot : fill(offers?.standing === 'given' ? w.may : w.objected, values)}
        </b>
      </p>
      {offers !== undefined && <blockquote>{offers.wording}</blockquote>}
      {offers?.standing === 'given' && record.customer.email === undefined && <p>{w.noAddress}</p>}
    </>
  )
}

type FormProps = { view: CustomerView; typed: Typed; problems: readonly Problem[] }

/** A yes or a no that was told to the shop. */
const Told = ({ view, typed, problems }: FormProps) => {
  const action = `${pathTo('customers', view.record.customer.id)}/consent`
  const given: Typed = typed.has('wording') ? typed : new Map([...typed, ['wording', [view.wording]]])
  const ways = TOLD_BY.map((way) => [way, w.toldWays[way]] as const)
  return (
    <>
      <details open={problems.length > 0}>
        <summary>{w.record}</summary>
        <form method="post" action={action} class="form">
          <p>{w.recordSays}</p>
          <Field name="wording" label={w.wording} rows={4} typed={given} problems={problems} required />
          <Select name="source" label={w.toldBy} choices={ways} typed={typed} problems={problems} />
          <p class="actions">
            <button class="button quiet" type="submit" name="do" value="yes">
              {w.saveYes}
            </button>
          </p>
        </form>
      </details>
      {view.offers?.standing !== 'withdrawn' && (
        <form method="post" action={action}>
          <input type="hidden" name="source" value="in person" />
          <p class="actions">
            <button class="button quiet" type="submit" name="do" value="no">
              {w.saveNo}
            </button>
          </p>
        </form>
      )}
    </>
  )
}

/** What mails to them are written in. */
const Reads = ({ view }: { view: CustomerView }) => {
  const { id, language } = view.record.customer
  return (
    <form method="post" action={`${pathTo('customers', id)}/language`}>
      <Select
        name="language"
        label={w.language}
        choices={[['', w.languageOfShop], ...LANGUAGES.map((one) => [one, w.languages[one]] as const)]}
        typed={new Map(language === undefined ? [] : [['language', [language]]])}
        problems={[]}
      />
      <p class="actions">
        <button class="button quiet" type="submit">
          {w.saveLanguage}
        </button>
      </p>
    </form>
  )
}

const CUSTOMERS_A_PAGE = 50

export function customerRoutes(app: Hono, web: Web): void {
  const { uses, options } = web
  const frame = (title: string) => ({ place: 'Machines', demo: options.demo, title }) as const

  const list = async (c: Context, typed: Typed = new Map(), problems: readonly Problem[] = []) => {
    const asked = askedOf(c)
    const { query } = asked
    const [shop, { lines: customers, total }, reminders] = await Promise.all([
      uses.shop(),
      uses.customers({ query, ...pieceAt(asked.page, CUSTOMERS_A_PAGE) }),
      uses.keepReminders(),
    ])
    const isOwner = mayDo(who(c), { may: 'owner' })
    const figures = figuresOf(shop)
    return page(
      c,
      { ...frame(w.all), shopName: shop.name },
      <>
        <div class="head">
          <h1>{w.all}</h1>
        </div>
        <ProblemSummary problems={problems} labels={labels} />
        {(total > CUSTOMERS_A_PAGE || query !== '') && (
          <Find action="/customers" label={w.find} query={query} />
        )}
        {total === 0 ? (
          <p class="card empty">{query === '' ? w.none : fill(w.noneFound, { query })}</p>
        ) : (
          <section class="card">
            <ul class="ruled">
              {customers.map(({ id, name, machines, offers, erasedAt, eraseAskedAt }) => (
                <li class="line">
                  <a href={pathTo('customers', id)}>{name}</a>
                  {machines.map((tag) => (
                    <Tag tag={tag} />
                  ))}
                  <span class="soft">
                    {[
                      machines.length === 0 ? w.noMachine : undefined,
                      erasedAt === undefined ? (offers ? w.offers : w.noOffers) : undefined,
                      erasedAt && fill(w.erased, { date: figures.date(erasedAt) }),
                      eraseAskedAt && fill(w.eraseAsked, { date: figures.date(eraseAskedAt) }),
                    ]
                      .filter((text) => text !== undefined)
                      .join(', ')}
                  </span>
                </li>
              ))}
            </ul>
            <Pages
              of="customers"
              {...{ page: asked.page, total, most: CUSTOMERS_A_PAGE, figures }}
              to={(at) => listPath('/customers', { q: query, page: at })}
            />
          </section>
        )}
        <KeepRemindersPart {...{ reminders, figures, typed, problems, isOwner }} />
      </>,
      problems[0] === undefined ? 200 : STATUS_OF[problems[0].code],
    )
  }

  app.get('/customers', (c) => list(c))

  app.post('/customers/keep', async (c) => {
    const typed = typedOf(await readForm(c))
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const months = reader.read('months', whole(1, 600, 'months'))
    if (reader.problems.length > 0) return list(c, typed, reader.problems)
    await uses.remindAfter(months)
    return c.redirect('/customers#keep', 303)
  })

  const show = async (c: Context, typed: Typed = new Map(), problems: readonly Problem[] = []) => {
    const found = await uses.customer(param(c, 'id'))
    if (!found.ok) return problemPage(c, web, found.problems, 'Machines')
    const [view, shop] = [found.value, await uses.shop()]
    const { id, name, erasedAt } = view.record.customer
    const figures = figuresOf(shop)
    const done = new Map(Object.entries(w.done)).get(c.req.query('did') ?? '')
    return page(
      c,
      { ...frame(name), shopName: shop.name },
      <article class="card">
        <p class="line">
          <a href="/customers">{w.all}</a> <span class="soft">{id}</span>
        </p>
        <h1>{name}</h1>
        {done !== undefined && (
          <p class="kept" role="status">
            <b>{done}</b>
          </p>
        )}
        <ProblemSummary problems={problems} labels={labels} />
        {erasedAt !== undefined ? (
          <p>
            <b>{fill(w.erased, { date: figures.date(erasedAt) })}</b>
          </p>
        ) : (
          <>
            {view.record.eraseRequest !== undefined && (
              <p>
                <b>{fill(w.saysErase, { name, date: figures.date(view.record.eraseRequest.askedAt) })}</b>{' '}
                <a href={`${pathTo('customers', id)}/erase`}>{w.erase}</a>
              </p>
            )}
            <Standing view={view} figures={figures} />
            <Told view={view} typed={typed} problems={problems} />
            <Reads view={view} />
          </>
        )}
        <h2>{w.kept}</h2>
        <p>{w.print}</p>
        <p class="actions">
          <a class="button quiet" href={`${pathTo('customers', id)}/all.json`}>
            {w.asFile}
          </a>
          {erasedAt === undefined && <a href={`${pathTo('customers', id)}/erase`}>{w.erase}</a>}
        </p>
        <RecordShown record={view.record} figures={figures} />
      </article>,
      problems[0] === undefined ? 200 : STATUS_OF[problems[0].code],
    )
  }

  app.get('/customers/:id', (c) => show(c))

  app.post('/customers/:id/consent', async (c) => {
    const id = param(c, 'id')
    const typed = typedOf(await readForm(c))
    const source = TOLD_BY.find((way) => way === textOf(typed, 'source')) ?? 'in person'
    if (textOf(typed, 'do') === 'no') {
      const kept = await uses.recordObjection(id, source)
      return kept.ok
        ? c.redirect(`${pathTo('customers', id)}?did=no`, 303)
        : problemPage(c, web, kept.problems, 'Machines')
    }
    const reader = fieldReader(typed, readingFor(await uses.shop()))
    const wording = reader.read('wording', lines()) ?? ''
    if (reader.problems.length > 0) return show(c, typed, reader.problems)
    const kept = await uses.recordConsent(id, { source, wording })
    return kept.ok ? c.redirect(`${pathTo('customers', id)}?did=yes`, 303) : show(c, typed, kept.problems)
  })

  app.post('/customers/:id/language', async (c) => {
    const id = param(c, 'id')
    const chosen = textOf(typedOf(await readForm(c)), 'language')
    const saved = await uses.setCustomerLanguage(
      id,
      LANGUAGES.find((one) => one === chosen),
    )
    return saved.ok
      ? c.redirect(`${pathTo('customers', id)}?did=language`, 303)
      : problemPage(c, web, saved.problems, 'Machines')
  })

  app.get('/customers/:id/all.json', async (c) => {
    const all = await uses.exportCustomer(param(c, 'id'), nameOf(who(c)))
    if (!all.ok) return problemPage(c, web, all.problems, 'Machines')
    const name = all.value.customer.id.replaceAll(/[^\w-]/g, '_')
    c.header('Content-Disposition', `attachment; filename="${name}.json"`)
    return c.json(all.value)
  })

  const eraseForm = async (c: Context, problems: readonly Problem[] = []) => {
    const id = param(c, 'id')
    const kept = await uses.customerKept(id)
    if (!kept.ok) return problemPage(c, web, kept.problems, 'Machines')
    const { name, openJobs } = kept.value
    const [shop, customer] = await Promise.all([uses.shop(), uses.customer(id)])
    const wish = customer.ok ? customer.value.record.eraseRequest : undefined
    const title = fill(w.eraseTitle, { name })
    const isUnsure = problems.some(({ field }) => field === 'sure')
    return page(
      c,
      frame(title),
      <article class="card form">
        <p class="line">
          <a href={pathTo('customers', id)}>{name}</a>
        </p>
        <h1>{title}</h1>
        <ProblemSummary problems={problems} labels={labels} />
        {wish !== undefined && (
          <form method="post" action={`${pathTo('customers', id)}/erase/back`} class="nothing">
            <p>{fill(w.eraseWish, { date: figuresOf(shop).date(wish.askedAt) })}</p>
            <p class="actions">
              <button class="button quiet" type="submit">
                {w.eraseBack}
              </button>
            </p>
          </form>
        )}
        <EraseShown kept={kept.value} />
        <p>{w.eraseLaw}</p>
        <p>
          <a href={`${pathTo('customers', id)}/all.json`}>{w.asFile}</a>
        </p>
        {openJobs.length > 0 ? (
          <p class="wrong">{fill(w.eraseOpen, { job: openJobs.join(', ') })}</p>
        ) : (
          <form method="post" action={`${pathTo('customers', id)}/erase`} class="form">
            <div class={isUnsure ? 'field bad' : 'field'}>
              <label class="check">
                <input
                  id={idOf('sure')}
                  type="checkbox"
                  name="sure"
                  value="yes"
                  aria-invalid={isUnsure ? 'true' : undefined}
                  aria-describedby={isUnsure ? `${idOf('sure')}-wrong` : undefined}
                />{' '}
                {w.sure}
              </label>
              <FieldProblems name="sure" problems={problems} />
            </div>
            <p class="actions">
              <button class="button" type="submit">
                {w.eraseNow}
              </button>
            </p>
          </form>
        )}
      </article>,
      problems[0] === undefined ? 200 : STATUS_OF[problems[0].code],
    )
  }

  app.get('/customers/:id/erase', (c) => eraseForm(c))

  app.post('/customers/:id/erase', async (c) => {
    const id = param(c, 'id')
    const typed = typedOf(await readForm(c))
    const erased = await uses.eraseCustomer(id, textOf(typed, 'sure') === 'yes', nameOf(who(c)))
    return erased.ok
      ? c.redirect(`${pathTo('customers', id)}?did=erased`, 303)
      : eraseForm(c, erased.problems)
  })

  app.post('/customers/:id/erase/back', async (c) => {
    const back = await uses.takeBackErase(param(c, 'id'), nameOf(who(c)))
    return back.ok
      ? c.redirect(`${pathTo('customers', back.value.id)}?did=back`, 303)
      : problemPage(c, web, back.problems, 'Machines')
  })

  app.post('/machines/:tag/parting/back', async (c) => {
    const back = await uses.takeBackParting(param(c, 'tag'))
    return back.ok
      ? c.redirect(pathTo('machines', back.value.tag), 303)
      : problemPage(c, web, back.problems, 'Machines')
  })
}
