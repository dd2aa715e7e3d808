import type { Context, Hono } from 'hono'
import type { Child } from 'hono/jsx'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { Result } from '../problem.ts'
import type { OwnerPageView } from '../uses/ownerPage.ts'
import { type Figures, figuresOf } from '../words/figures.ts'
import { fill } from '../words/say.ts'
import { type Tables, wordsIn } from '../words/tables.ts'
import type { Typed } from './form.tsx'
import { param, type Web } from './frame.ts'
import { nowherePage, ownerPage } from './ownerFrame.tsx'

/** An address under an owner's link. */
export const pathUnder = (token: string, rest: string): string => `/o/${token}/${rest}`

type Read = Pick<OwnerPageView, 'language' | 'chosen' | 'tag'> & {
  readonly shop: { readonly locale: string; readonly timeZone: string }
}

/** Words and figures as the owner reads them. */
export async function readIn({ uses }: Web, { shop, language, chosen }: Read) {
  const { policy } = await uses.shop()
  return { words: wordsIn(language), figures: figuresOf({ ...shop, policy }, { language: chosen }) }
}

/** How the pages of an owner's link come: in their language, with the machine's tag above. */
const bareOf =
  (web: Web) =>
  async (
    c: Context,
    view: Read,
    title: (words: Tables) => string,
    body: (words: Tables, figures: Figures) => Child,
    status: ContentfulStatusCode = 200,
  ) => {
    const { words, figures } = await readIn(web, view)
    return ownerPage(
      c,
      `${title(words)} ${view.tag}`,
      web.options.demo,
      <article class="card">
        <p class="line">
          <span class="tag">{view.tag}</span>
        </p>
        {body(words, figures)}
      </article>,
      status,
      view.language,
    )
  }

/** An owner who said the machine is sold: that, and the way back. Undefined for any other link. */
export async function partedPage(c: Context, web: Web) {
  const parted = await web.uses.ownerParted(param(c, 'token'))
  if (!parted.ok) return undefined
  const { shop, tag, saidAt, until } = parted.value
  return bareOf(web)(
    c,
    parted.value,
    ({ ownerPerson: w }) => w.parted.title,
    ({ ownerPerson: w }, figures) => (
      <>
        <h1>{w.parted.title}</h1>
        <p>{fill(w.parted.says, { tag, date: figures.date(saidAt), until: figures.date(until) })}</p>
        <form method="post" action={pathUnder(param(c, 'token'), 'sold/back')}>
          <p class="actions">
            <button class="button quiet" type="submit">
              {w.parted.back}
            </button>
          </p>
        </form>
        <p class="soft">{fill(w.parted.newOwner, { shop: shop.name })}</p>
        <p class="soft">{fill(w.parted.wish, { shop: shop.name })}</p>
      </>
    ),
  )
}

type Post = (
  path: string,
  act: (c: Context, token: string, view: OwnerPageView) => Response | Promise<Response>,
) => void
type Ended = <T>(
  c: Context,
  token: string,
  typed: Typed,
  what: string,
  result: Result<T>,
) => Promise<Response> | Response

/** What every route of an owner's page is built of. */
export type OwnerRoutes = {
  /** A page behind a link that holds; else the same as for every dead link. */
  readonly looked: (
    path: string,
    show: (c: Context, token: string, view: OwnerPageView) => Promise<Response>,
  ) => void
  /** Something sent, once the link holds and is not used too often. */
  readonly post: Post
  readonly ended: Ended
  readonly bare: ReturnType<typeof bareOf>
}

/** Joins those pieces; `post` and `ended` are the page's own. */
export const ownerRoutesOf = (app: Hono, web: Web, { post, ended }: Pick<OwnerRoutes, 'post' | 'ended'>) => ({
  ...{ post, ended, bare: bareOf(web) },
  looked: (path: string, show: (c: Context, token: string, view: OwnerPageView) => Promise<Response>) =>
    void app.get(`/o/:token/${path}`, async (c) => {
      const token = param(c, 'token')
      const view = await web.uses.ownerPage(token)
      if (view.ok) return show(c, token, view.value)
      return (await partedPage(c, web)) ?? nowherePage(c, web)
    }),
})
