import { GO_TO_EN } from '../words/en/goTo.ts'
import { rowOf } from './access/rights.ts'
import { mayDo, type Who } from './access/who.ts'

const W = GO_TO_EN

export type PagePath = keyof typeof W.pages
export type ActPath = keyof typeof W.acts

/** A page that can be gone to. */
export type Goal = {
  readonly href: string
  readonly name: string
  /** Other words for it. */
  readonly also: string
  readonly isAct: boolean
  /** The key that leads there, where no field has the focus. */
  readonly key?: string | undefined
}

/** One key each, and none that a list of keys or the box has. Letters of what stands there where they are free. */
const KEYS: Readonly<Partial<Record<PagePath | ActPath, string>>> = {
  '/': 'q',
  '/jobs': 'j',
  '/outbox': 'o',
  '/machines': 'm',
  '/customers': 'c',
  '/shelf': 's',
  '/offers': 'f',
  '/platforms': 'p',
  '/runs': 'r',
  '/questions/new': 'n',
  '/sell': 'v',
  '/runs/new': 't',
}

const namesOf = (table: typeof W.pages | typeof W.acts, isAct: boolean): Goal[] =>
  Object.entries(table).map(([href, [name, also = '']]) => ({
    ...{ href, name, also, isAct },
    key: (KEYS as Readonly<Record<string, string>>)[href],
  }))

const GOALS: readonly Goal[] = [...namesOf(W.acts, true), ...namesOf(W.pages, false)]

/** Whether this one may look at a page with that pattern. */
export function mayOpen(asker: Who | undefined, pattern: string): boolean {
  const row = rowOf('GET', pattern)
  return asker !== undefined && row !== undefined && mayDo(asker, row)
}

/** Pages that this one may go to. */
export const goalsFor = (asker: Who | undefined): readonly Goal[] =>
  GOALS.filter(({ href }) => mayOpen(asker, href))

const fold = (text: string): string => text.trim().toLocaleLowerCase('und')

/** Pages whose name, or another word for them, has every word that was typed; those called exactly so apart. */
export function goalsNamed(asker: Who | undefined, typed: string) {
  const words = fold(typed).split(/\s+/).filter(Boolean)
  const found = goalsFor(asker).filter(({ name, also }) => {
    const text = fold(`${name} ${also}`)
    return words.length > 0 && words.every((word) => text.includes(word))
  })
  return { found, exact: found.filter(({ name }) => fold(name) === fold(typed)) }
}
