import type { Context } from 'hono'
import type { Shop } from '../core/answer.ts'
import type { Problem } from '../problem.ts'
import { type Figures, figuresFor } from '../words/figures.ts'
import type { Who } from './access/who.ts'
import type { From } from './hosts.ts'
import { readingOf } from './typed.ts'
import type { WebUses } from './webUses.ts'

export type WebOptions = {
  /** Origin under which owners reach their pages, such as `https://ask.example`; absent: where the pages are. */
  readonly ownerUrl?: string | undefined
  /** Marks every page as the demo shop's. */
  readonly demo: boolean
  /** Who everybody counts as who asks: the demo's visitors. Absent: whoever signed in, and nobody else. */
  readonly everybodyIs?: Who | undefined
  /** Addresses of proxies in front of us, whose word on the client's address and on TLS is taken. */
  readonly proxies?: readonly string[]
  /** Whether a request for that host name (of its Host field, without port) is for us; absent = every one is. */
  readonly isOurHost?: (name: string, from: From) => boolean
  /** What a person can put right about an error that was thrown; undefined for a fault of ours. */
  readonly problemOf?: (error: unknown) => Problem | undefined
  /** Told of every fault with the reference that the person sees; must log no form content. */
  readonly onFault?: (fault: Fault) => void
  /** Told of every request that came and of its end; no name, key, token or path that was asked for is in it. */
  readonly onAsked?: () => void
  readonly onAnswered?: (answered: Answered) => void
}

/** One request, as a log and counters may have it. `path` is the pattern of the route. */
export type Answered = {
  readonly requestId: string
  readonly method: string
  readonly path: string
  readonly status: number
  readonly ms: number
  /** What kind of asker, never which. */
  readonly asker: 'owner' | 'staff' | 'token' | 'demo' | 'nobody'
}

/** An error of ours. `path` is the pattern of the route: keys and names in an address are the shop's. */
export type Fault = {
  readonly reference: string
  /** The request's own mark, as its answer carries it. */
  readonly requestId?: string | undefined
  readonly method: string
  readonly path: string
  readonly error: unknown
}

/** What every route is handed. */
export type Web = { readonly uses: WebUses; readonly options: WebOptions }

export const PLACES = [
  ['Questions', '/'],
  ['Jobs', '/jobs'],
  ['Outbox', '/outbox'],
  ['Machines', '/machines'],
  ['Shelf', '/shelf'],
  ['Offers', '/offers'],
  ['Platforms', '/platforms'],
  ['Runs', '/runs'],
  ['Import', '/import'],
  ['Settings', '/settings'],
] as const
export type Place = (typeof PLACES)[number][0]

/** What the frame around a page needs besides the page. */
export type Frame = {
  readonly title: string
  readonly place?: Place | undefined
  readonly demo: boolean
  readonly shopName?: string | undefined
  /** Without a script the page comes again after so many seconds; a script brings what has `data-again` alone. */
  readonly again?: number | undefined
  /** What was typed into the box that finds anything: on the page of what was found. */
  readonly sought?: string | undefined
  /** That could not be looked for. */
  readonly isWrong?: boolean | undefined
}

const formatters = new Map<string, Figures>()

/** Formatters of this shop, built once for each locale, zone and currency. */
export function figuresOf(shop: Shop): Figures {
  const key = [shop.locale, shop.timeZone, shop.policy.currency].join('|')
  const known = formatters.get(key)
  if (known !== undefined) return known
  const made = figuresFor(shop)
  formatters.set(key, made)
  return made
}

/** How what is typed into this shop's forms is read. */
export const readingFor = (shop: Shop) =>
  readingOf(figuresOf(shop).minorDigits, shop.timeZone, shop.policy.currency)

/** One piece of the path, such as the tag in `/machines/:tag`; '' where the pattern has none. */
export const param = (c: Context, name: string): string => c.req.param(name) ?? ''

/** A path to one thing; its key is escaped, because keys are the shop's own words. */
export const pathTo = (
  place: 'questions' | 'answers' | 'machines' | 'messages' | 'parts' | 'jobs' | 'customers',
  key: string,
): string => `/${place}/${encodeURIComponent(key)}`

/** A firmware table that a machine's owner sent. */
export const pathToOwnerReading = (tag: string, id: string): string =>
  `${pathTo('machines', tag)}/reading/${encodeURIComponent(id)}`

/** A part's page with the way back from it. */
/** A shelf item on the page of the shelf that holds it. */
export const pathToShelfItem = (id: string): string =>
  `/shelf?item=${encodeURIComponent(id)}#item-${encodeURIComponent(id)}`

export const pathToPart = (partId: string, from: string): string =>
  `${pathTo('parts', partId)}?from=${encodeURIComponent(from)}`

const FROM_MAX = 500

/**
 * A way back that somebody handed in: a path of this site, or nothing. What a browser would take for another site is
 * refused: two slashes, a backslash, and control characters, which browsers leave out (URL Standard, 4.4).
 */
export const wayBack = (from: string | undefined): string | undefined =>
  from !== undefined && from.length <= FROM_MAX && /^\/(?!\/)[^\\\p{Cc}]*$/u.test(from) ? from : undefined
