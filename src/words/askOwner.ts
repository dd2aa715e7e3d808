import type { LimitKey } from '../core/limits/limit.ts'
import { ASK_OWNER_EN } from './en/askOwner.ts'
import { LIMIT_WORDS } from './en/limits.ts'
import { curly, fill, oneLine } from './say.ts'

type Asking = {
  readonly limitKey: LimitKey
  readonly tag: string
  readonly ownerName?: string | undefined
  readonly builder: string
  readonly shop: string
  /** The owner's page; absent where no link was made. */
  readonly link?: string | undefined
}

/** The short text that asks an owner for one thing: which, what it is, how it is found out, and where to put it. */
export function askOwnerText({ limitKey, tag, ownerName, builder, shop, link }: Asking): string {
  const w = ASK_OWNER_EN
  const { label, meaning, findOut } = LIMIT_WORDS[limitKey]
  const [first = ''] = oneLine(ownerName ?? '').split(' ')
  return [
    first === '' ? w.hello : fill(w.helloNamed, { name: first }),
    fill(w.need, { label: curly(label.charAt(0).toLowerCase() + label.slice(1)), tag: oneLine(tag) }),
    `${curly(meaning)} ${curly(findOut)}`,
    link === undefined ? w.photo : fill(w.link, { link }),
    fill(w.sign, { builder: oneLine(builder), shop: oneLine(shop) }),
  ].join('\n\n')
}

/** The line with which a short answer leads to the owner's page. */
export const linkLine = (link: string): string => fill(ASK_OWNER_EN.answerLink, { link })
