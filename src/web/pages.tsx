import type { Context } from 'hono'
import type { Figures } from '../words/figures.ts'

/** What a list is asked for: words that are looked for, and which page of what is found, from 1. */
export type Asked = { readonly query: string; readonly page: number }

/** Longer words are no name, tag or sentence of a shop. */
const QUERY_LONGEST = 100

/** Of an address; what is no page is the first one. */
export function askedOf(c: Context): Asked {
  const typed = c.req.query('page') ?? ''
  return {
    query: (c.req.query('q') ?? '').trim().slice(0, QUERY_LONGEST),
    page: /^\d{1,6}$/.test(typed) ? Math.max(1, Number(typed)) : 1,
  }
}

/** The piece of a list that is a page. */
export const pieceAt = (page: number, most: number) => ({ offset: (page - 1) * most, most })

/** An address with what is looked for; the first page needs no number. */
export function listPath(path: string, asked: Readonly<Record<string, string | number | undefined>>): string {
  const query = new URLSearchParams()
  for (const [name, value] of Object.entries(asked))
    if (value !== undefined && value !== '' && !(name === 'page' && value === 1))
      query.set(name, String(value))
  return query.size === 0 ? path : `${path}?${query}`
}

type PagesProps = {
  /** What the pages are of: `Machines`. */
  of: string
  page: number
  total: number
  most: number
  to: (page: number) => string
  figures: Figures
}

/** The ways to the pages before and after, and which of how many this one is; nothing where there is one. */
export const Pages = ({ of, page, total, most, to, figures }: PagesProps) => {
  const pages = Math.max(1, Math.ceil(total / most))
  if (pages === 1 && page === 1) return null
  const before = Math.min(page - 1, pages)
  return (
    <nav aria-label={`Pages of ${of}`} class="actions">
      {before >= 1 && (
        <a href={to(before)} rel="prev">
          Previous page
        </a>
      )}
      <span class="soft">
        {page > pages
          ? `There are ${figures.number(pages)} pages`
          : `Page ${figures.number(page)} of ${figures.number(pages)}`}
      </span>
      {page < pages && (
        <a href={to(page + 1)} rel="next">
          Next page
        </a>
      )}
    </nav>
  )
}

type FindProps = {
  /** Path of the list. */
  action: string
  /** What is looked in: `Tag, owner or part`. */
  label: string
  query: string
  /** What stays as it is while something is looked for. */
  keeps?: Readonly<Record<string, string | undefined>> | undefined
}

/** Looks for words in a list. */
export const Find = ({ action, label, query, keeps = {} }: FindProps) => (
  <search>
    <form method="get" action={action} class="find">
      <label for="q">{label}</label>
      <input id="q" name="q" type="search" value={query} maxlength={QUERY_LONGEST} />
      {Object.entries(keeps).map(
        ([name, value]) => value !== undefined && <input type="hidden" name={name} value={value} />,
      )}
      <button class="button quiet" type="submit">
        Find
      </button>
      {query !== '' && <a href={listPath(action, keeps)}>Show all</a>}
    </form>
  </search>
)
