import type { Context } from 'hono'
import { html } from 'hono/html'
import type { Child } from 'hono/jsx'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { OWNER_EN } from '../words/en/ownerPage.ts'
import { assets } from './assets.ts'
import type { Web } from './frame.ts'
import { MarkSheet } from './mark.tsx'

/** A page for somebody who has a link and nothing else: no way from here to the shop's own pages. */
export const ownerPage = (
  c: Context,
  title: string,
  demo: boolean,
  body: Child,
  status: ContentfulStatusCode = 200,
) => {
  c.header('X-Robots-Tag', 'noindex, nofollow')
  const whole = (
    <html lang="en">
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
          Skip to the page
        </a>
        <MarkSheet />
        {demo && (
          <p class="demo" role="note">
            <b>Demo shop:</b> invented people, parts and prices. Nothing here is sent.
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

/** The same for a link that nobody made, that has ended or that was taken back, and for every path beside them. */
export const nowherePage = (c: Context, { options }: Web) =>
  ownerPage(
    c,
    OWNER_EN.nowhere.head,
    options.demo,
    <article class="card slim">
      <h1>{OWNER_EN.nowhere.head}</h1>
      <p>{OWNER_EN.nowhere.says}</p>
    </article>,
    404,
  )

const ofLink = /^\/o(?:\/([^/]*)|$)/

/** Whether this was asked for with an owner's link; also where no route matched, or none was looked for yet. */
export const isForOwner = (c: Context): boolean => ofLink.test(c.req.path)

type Trouble = keyof typeof OWNER_EN.trouble

/** What went wrong before or behind an owner's page, in the owner's words and with nothing of the shop's own pages. */
export function ownerTrouble(
  c: Context,
  { options }: Web,
  trouble: Trouble,
  status: ContentfulStatusCode,
  more?: Child,
) {
  const { head, says } = OWNER_EN.trouble[trouble]
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
          <a href={`/o/${token}`}>{OWNER_EN.back}</a>
        </p>
      )}
    </article>,
    status,
  )
}
