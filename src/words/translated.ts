import type { Forms } from './say.ts'

/** The shape of a table in another language: every key of it, every sentence its own. */
export type Translated<T> = T extends string
  ? string
  : T extends (...values: infer V) => infer S
    ? (...values: V) => Translated<S>
    : T extends readonly (infer E)[]
      ? readonly Translated<E>[]
      : T extends Forms
        ? Forms
        : { readonly [K in keyof T]: Translated<T[K]> }
