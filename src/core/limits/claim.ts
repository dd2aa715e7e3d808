import type { Claim, LimitKey, LimitValues } from './limit.ts'

/** What a derived claim may add to its value. */
export type Remark = { readonly note?: string | undefined; readonly doubt?: string | undefined }

/** That the limit is no less than `value`, by the tables or by what is fitted; none for what is not known. */
export const atLeast = <K extends LimitKey>(
  key: K,
  value: LimitValues[K] | undefined,
  source: 'platform' | 'measured',
  note?: string,
): Claim<K>[] =>
  value === undefined
    ? []
    : [{ key, value, source, bound: 'at least', ...(note === undefined ? {} : { note }) } as Claim<K>]

/** A claim with the fields it has, or none when the data sheet or the table is silent. */
function claim<K extends LimitKey>(
  source: 'part' | 'platform',
  key: K,
  value: LimitValues[K] | undefined,
  { note, doubt }: Remark,
): Claim<K>[] {
  if (value === undefined) return []
  const made = {
    key,
    value,
    source,
    ...(note === undefined ? {} : { note }),
    ...(doubt === undefined ? {} : { doubt }),
  }
  return [made as Claim<K>]
}

export const byPart = <K extends LimitKey>(key: K, value: LimitValues[K] | undefined, remark: Remark = {}) =>
  claim('part', key, value, remark)

export const byPlatform = <K extends LimitKey>(
  key: K,
  value: LimitValues[K] | undefined,
  remark: Remark = {},
) => claim('platform', key, value, remark)

/** Joins what there is to say with semicolons; `undefined` when there is nothing. */
export const remarks = (...parts: readonly (string | undefined)[]): string | undefined => {
  const said = parts.filter((part) => part !== undefined)
  return said.length === 0 ? undefined : said.join('; ')
}
