import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import { LIMITS_SHEET_EN as W } from '../words/en/limitsSheet.ts'
import { SELL_EN } from '../words/en/sell.ts'
import { figuresOf as figuresFor } from '../words/figures.ts'
import { type SheetSaid, saySheet } from '../words/limitsSheet.ts'
import { fill } from '../words/say.ts'
import { wordsIn } from '../words/tables.ts'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag, VerdictMark } from './mark.tsx'
import { nowherePage, ownerPage } from './ownerFrame.tsx'
import { labelUrl } from './ownerUrl.tsx'
import { problemPage } from './problem.tsx'
import { pathToSale } from './sellPaths.ts'
import type { OwnerSheetShown, PaperSize, SheetShown } from './sheetUses.ts'
import { SlotsShown } from './slotsShown.tsx'

/** What the sheet says, for page and print: the same on the shop's page, behind a label and for an owner. */
export const SheetBody = ({ said, code }: { said: SheetSaid; code?: Child }) => (
  <article class="card wide limits-sheet">
    <header class="sheet-top">
      <div>
        <h1>{said.title}</h1>
        <p>
          <Tag tag={said.tag} link={false} />
        </p>
        {said.about.map((text) => (
          <p class="soft">{text}</p>
        ))}
      </div>
      {code}
    </header>
    <div class="sheet-columns">
      <Rows {...said.inside} />
      <Measured {...said.measured} />
      <Next {...said.next} />
      <section>
        <h2>{said.never.head}</h2>
        {said.never.groups.map(({ head, rows, end }) => (
          <>
            <h3>{head}</h3>
            <ul>
              {rows.map((text) => (
                <li>{text}</li>
              ))}
            </ul>
            <p class="soft">{end}</p>
          </>
        ))}
      </section>
      <Rows {...said.free} />
      <section>
        <h2>{said.supply.head}</h2>
        {said.supply.bar !== undefined && <SupplyBar {...said.supply.bar} />}
        {said.supply.says.map((text) => (
          <p>{text}</p>
        ))}
      </section>
      <section>
        <h2>{said.warranties.head}</h2>
        {said.warranties.rows.map((text) => (
          <p>{text}</p>
        ))}
      </section>
      {said.unknown.rows.length > 0 && (
        <section>
          <h2>{said.unknown.head}</h2>
          <p class="soft">{said.unknown.says}</p>
          <ul>
            {said.unknown.rows.map(({ label, text }) => (
              <li>
                <b>{label}:</b> {text}
              </li>
            ))}
          </ul>
        </section>
      )}
      <section>
        <h2>{said.cautions.head}</h2>
        <ul class="cautions">
          {said.cautions.rows.map((text) => (
            <li>{text}</li>
          ))}
        </ul>
      </section>
    </div>
    <p class="soft">{said.foot}</p>
  </article>
)

const Rows = ({ head, rows }: SheetSaid['inside']) => (
  <section>
    <h2>{head}</h2>
    <dl class="limits">
      {rows.map(({ label, text }) => (
        <div>
          <dt>{label}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  </section>
)

const Measured = ({ head, says, columns, rows }: SheetSaid['measured']) => (
  <section>
    <h2>{head}</h2>
    <p class="soft">{says}</p>
    {rows.length > 0 && (
      <table class="list">
        <thead>
          <tr>
            {columns.map((name, i) => (
              <th scope="col" class={i === 0 ? undefined : 'right'}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ game, setting, average, low, note }) => (
            <tr>
              <td>
                {game}
                <small class="block">{setting}</small>
                {note !== undefined && <small class="block">{note}</small>}
              </td>
              <td class="right num">{average}</td>
              <td class="right num">{low}</td>
            </tr>
          ))}
        </tbody>
      </table>
    )}
  </section>
)

const Next = ({ head, says, kinds }: SheetSaid['next']) => (
  <section>
    <h2>{head}</h2>
    <p class="soft">{says}</p>
    {kinds.map(({ head: kind, bounds, best, says: more }) => (
      <>
        <h3>{kind}</h3>
        {bounds.length > 0 && (
          <p class="soft">{bounds.map(({ label, value }) => `${label}: ${value}`).join(' · ')}</p>
        )}
        {best.length > 0 && (
          <ul class="ruled">
            {best.map(({ verdict, says: verdictSays, gains, why }) => (
              <li>
                <VerdictMark verdict={verdict} says={verdictSays} /> {gains}
                {why.map((reason) => (
                  <small class="block">{reason}</small>
                ))}
              </li>
            ))}
          </ul>
        )}
        {more.map((text) => (
          <p>{text}</p>
        ))}
      </>
    ))}
  </section>
)

/** Load today in what the shop counts on. The sentence beside it says the same. */
const SupplyBar = ({ load, usable }: { load: number; usable: number }) => {
  const pct = (share: number) => `${Math.round(share * 1000) / 10}%`
  return (
    <svg class="bars" height="22" width="100%" aria-hidden="true">
      <rect class="before" x="0" y="3" height="16" width={pct(usable)} />
      <rect class={load > usable ? 'over' : 'after'} x="0" y="3" height="16" width={pct(load)} />
    </svg>
  )
}

/** The words of a sheet as its shop says them. */
export const saidOf = ({ sheet, shop }: SheetShown): SheetSaid =>
  saySheet(sheet, { name: shop.name, contact: shop.email }, figuresOf(shop))

/** The machine's slots as a drawing, under the sheet: printed, it is a page of its own. */
const Slots = ({ shown: { machine, shop }, limitsOn }: { shown: SheetShown; limitsOn: string }) =>
  machine === undefined ? null : (
    <section class="card sheet-slots">
      <SlotsShown {...machine} figures={figuresOf(shop)} limitsOn={limitsOn} />
    </section>
  )

const figuresForOwner = ({ shop, chosen }: OwnerSheetShown) => figuresFor(shop, { language: chosen })

const PAPERS: readonly PaperSize[] = ['a4', 'letter']
const paperOf = (c: Context): PaperSize => PAPERS.find((paper) => paper === c.req.query('paper')) ?? 'a4'

const sendPdf = (c: Context, bytes: Uint8Array<ArrayBuffer>, name: string) => {
  c.header('Content-Type', 'application/pdf')
  c.header('Content-Disposition', `inline; filename="${name.replaceAll(/[^\w.-]/g, '-')}"`)
  return c.body(bytes)
}

/** Where the file of a label or sheet is saved under. */
const fileName = (tag: string, what: string): string => `${tag}-${what}`

export function limitsSheetRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/machines/:tag/sheet', async (c) => {
    const [shown, handed] = await Promise.all([
      uses.limitsSheet(param(c, 'tag')),
      uses.handedSheets(param(c, 'tag')),
    ])
    if (!shown.ok) return problemPage(c, web, shown.problems, 'Machines')
    const { shop, sheet } = shown.value
    const figures = figuresOf(shop)
    const path = pathTo('machines', sheet.tag)
    return page(
      c,
      { title: `Limits sheet ${sheet.tag}`, place: 'Machines', demo: options.demo, shopName: shop.name },
      <>
        <p class="actions">
          <a class="button" href={`${path}/sheet.pdf?paper=a4`}>
            PDF for A4
          </a>
          <a class="button" href={`${path}/sheet.pdf?paper=letter`}>
            PDF for Letter
          </a>
          <a href={`${path}/label`}>Label for the case</a>
          <a href={`${path}/sheet.json`}>For programs (JSON)</a>
          <a href={pathToSale(sheet.tag)}>{SELL_EN.page.toSale}</a>
          <a href={path}>Back to the machine</a>
        </p>
        <SheetBody said={saidOf(shown.value)} />
        <Slots shown={shown.value} limitsOn={path} />
        {handed.length > 0 && (
          <section class="card">
            <h2>{W.handed.head}</h2>
            <ul>
              {handed.map(({ id, at }) => (
                <li>
                  <a href={`${path}/sheet/handed/${id}`}>{fill(W.handed.on, { date: figures.date(at) })}</a>
                </li>
              ))}
            </ul>
          </section>
        )}
      </>,
    )
  })

  app.get('/machines/:tag/sheet/handed/:id', async (c) => {
    const kept = await uses.handedSheet(param(c, 'tag'), param(c, 'id'))
    if (!kept.ok) return problemPage(c, web, kept.problems, 'Machines')
    const { shop, sheet, subject, message } = kept.value
    const title = fill(W.handed.on, { date: figuresOf(shop).date(sheet.at) })
    return page(
      c,
      { title: `${title} ${sheet.tag}`, place: 'Machines', demo: options.demo, shopName: shop.name },
      <>
        <p class="kept">
          {title}: {W.handed.asThen} <a href={`${pathTo('machines', sheet.tag)}/sheet`}>{W.handed.now}</a>
        </p>
        <SheetBody said={saidOf(kept.value)} />
        {message !== undefined && (
          <section class="card">
            <h2>{subject ?? W.handed.message}</h2>
            <p class="letter-text">{message}</p>
          </section>
        )}
      </>,
    )
  })

  app.get('/machines/:tag/sheet.pdf', async (c) => {
    const shown = await uses.limitsSheet(param(c, 'tag'))
    if (!shown.ok) return problemPage(c, web, shown.problems, 'Machines')
    const label = await uses.caseLabel(shown.value.sheet.tag)
    const link = label.ok ? labelUrl(c, web, label.value.code) : undefined
    const bytes = await uses.sheetPdf(shown.value, paperOf(c), link)
    return sendPdf(c, bytes, fileName(shown.value.sheet.tag, 'limits.pdf'))
  })

  app.get('/machines/:tag/sheet.json', async (c) => {
    const shown = await uses.limitsSheet(param(c, 'tag'))
    return shown.ok ? c.json(shown.value.sheet) : problemPage(c, web, shown.problems, 'Machines')
  })

  app.get('/l/:code', async (c) => {
    const shown = await uses.sheetBehindLabel(param(c, 'code'))
    if (!shown.ok) return nowherePage(c, web)
    const said = saidOf(shown.value)
    return ownerPage(
      c,
      `${said.title} ${said.tag}`,
      options.demo,
      <>
        <SheetBody said={said} />
        <Slots shown={shown.value} limitsOn="nowhere" />
        <p>
          <a href={`/l/${param(c, 'code')}/sheet.pdf`}>This as a PDF</a>
        </p>
      </>,
    )
  })

  app.get('/l/:code/sheet.pdf', async (c) => {
    const code = param(c, 'code')
    const shown = await uses.sheetBehindLabel(code)
    if (!shown.ok) return nowherePage(c, web)
    const bytes = await uses.sheetPdf(shown.value, paperOf(c), labelUrl(c, web, code))
    c.header('X-Robots-Tag', 'noindex, nofollow')
    return sendPdf(c, bytes, fileName(shown.value.sheet.tag, 'limits.pdf'))
  })
}

/** The sheet for the owner who has the link; registered before the owner's other pages, whose last route takes the rest. */
export function ownerSheetRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.get('/o/:token/sheet', async (c) => {
    const token = param(c, 'token')
    const shown = await uses.sheetBehindLink(token)
    if (!shown.ok) return nowherePage(c, web)
    const { sheet, shop, language } = shown.value
    const figures = figuresForOwner(shown.value)
    const said = saySheet(sheet, { name: shop.name, contact: shop.email }, figures)
    const { owner } = wordsIn(language)
    return ownerPage(
      c,
      `${said.title} ${said.tag}`,
      options.demo,
      <>
        <p class="actions">
          <a href={`/o/${token}`}>{owner.back}</a>
          <a href={`/o/${token}/sheet.pdf`}>{owner.sheetPdf}</a>
        </p>
        <SheetBody said={said} />
      </>,
      200,
      language,
    )
  })

  app.get('/o/:token/sheet.pdf', async (c) => {
    const shown = await uses.sheetBehindLink(param(c, 'token'))
    if (!shown.ok) return nowherePage(c, web)
    const bytes = await uses.sheetPdf(shown.value, paperOf(c), undefined, shown.value)
    c.header('X-Robots-Tag', 'noindex, nofollow')
    return sendPdf(c, bytes, fileName(shown.value.sheet.tag, 'limits.pdf'))
  })
}
