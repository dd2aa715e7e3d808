import type { Context } from 'hono'
import { accepts } from 'hono/accepts'
import { html } from 'hono/html'
import type { Child } from 'hono/jsx'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { LANGUAGES, type Language } from '../core/language.ts'
import { type Tables, wordsIn } from '../words/tables.ts'
import { assets } from './assets.ts'
import type { Web } from './frame.ts'
import { MarkSheet } from './mark.tsx'

/**
 * A page for somebody who has a link and nothing else: no way from here to the shop's own pages.
 *
 * @param language of the body's words
 */
export const ownerPage = (
  c: Context,
  title: string,
  demo: boolean,
  body: Child,
  status: ContentfulStatusCode = 200,
  language: Language = 'en',
) => {
  c.header('X-Robots-Tag', 'noindex, nofollow')
  const w = wordsIn(language).form
  const whole = (
    <html lang={language}>
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="robots" content="noindex, nofollow" />
        <title>{`${title} · Stillfits`}</title>
        <link rel="icon" href={assets.icon} type="image/svg+xml" />
        <link rel="stylesheet" href={assets.css} />
        <script src={assets.script} defer></script>
      </head>
      <body>
        <a class="skip" href="#main">
          {w.skip}
        </a>
        <MarkSheet />
        {demo && (
          <p class="demo" role="note">
            <b>{w.demo.head}</b> {w.demo.says}
          </p>
        )}
        <main id="main" tabindex={-1} class="owner">
          {body}
        </main>
      </body>
    </html>
  )
  return c.html(html`<!doctype html>${whole}`, status)
}

/** What the browser says its reader reads (RFC 9110, 12.5.4), where nobody is known yet. */
const languageAsked = (c: Context): Language =>
  accepts(c, {
    ...{ header: 'Accept-Language', supports: [...LANGUAGES], default: 'en' },
    match: (asked, { default: other }) =>
      asked
        .toSorted((one, two) => two.q - one.q)
        .flatMap(
          ({ type }) => LANGUAGES.find((language) => language === type.toLowerCase().split('-')[0]) ?? [],
        )[0] ?? other,
  }) as Language

/** The same for a link that nobody made, that has ended or that was taken back, and for every path beside them. */
export const nowherePage = (c: Context, { options }: Web, language: Language = languageAsked(c)) => {
  const { nowhere } = wordsIn(language).owner
  return ownerPage(
    c,
    nowhere.head,
    options.demo,
    <article class="card slim">
      <h1>{nowhere.head}</h1>
      <p>{nowhere.says}</p>
      <p class="soft">{nowhere.wish}</p>
    </article>,
    404,
    language,
  )
}

/** A path beside the pages of a link: in the language of whoever has the link, where it holds. */
export async function nowhereBeside(c: Context, web: Web) {
  const [, token = ''] = ofLink.exec(c.req.path) ?? []
  const view = token === '' ? undefined : await web.uses.ownerPage(token)
  return nowherePage(c, web, view?.ok === true ? view.value.language : undefined)
}

const ofLink = /^\/o(?:\/([^/]*)|$)/

/** Whether this was asked for with an owner's link; also where no route matched, or none was looked for yet. */
export const isForOwner = (c: Context): boolean => ofLink.test(c.req.path)

type Trouble = keyof Tables['owner']['trouble']

/** What went wrong before or behind an owner's page, in the owner's words and with nothing of the shop's own pages. */
export function ownerTrouble(
  c: Context,
  { options }: Web,
  trouble: Trouble,
  status: ContentfulStatusCode,
  more?: Child,
  language: Language = languageAsked(c),
) {
  const w = wordsIn(language).owner
  const { head, says } = w.trouble[trouble]
  const [, token = ''] = ofLink.exec(c.req.path) ?? []
  return ownerPage(
    c,
    head,
    options.demo,
    <article class="card slim">
      <h1>{head}</h1>
      <p>{says}</p>
      {more}
      {token !== '' && trouble !== 'slowly' && (
        <p>
          <a href={`/o/${token}`}>{w.back}</a>
        </p>
      )}
    </article>,
    status,
    language,
  )
}
