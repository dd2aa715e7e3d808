import type { LimitKey } from '../../core/limits/limit.ts'

type Noun = { readonly what: string; readonly saysMeaning: boolean }

/** The English of "I need one thing from you". */
export const ASK_OWNER_EN = {
  /** Where a label is no noun: what is needed, and whether its meaning still has to be said. */
  nouns: {
    memoryRunsMts: { what: 'the rate at which the memory runs today', saysMeaning: false },
    diskEncrypted: { what: 'whether the drive is encrypted', saysMeaning: true },
  } as { readonly [K in LimitKey]?: Noun },
  /** How a meaning begins that is so or not. */
  whether: 'Whether ',
  /** Labels begin small inside a sentence. */
  nounsSmall: true as boolean,
  hello: 'Hello,',
  helloNamed: 'Hello {name},',
  need: 'I need one thing from you for machine {tag}: {label}.',
  /** Which photo shows what is asked for. */
  photos: {
    label: 'a photo of the label',
    board: 'a photo of the name on the board',
    inside: 'a photo into the open case',
    ruler: 'a photo with a ruler laid along it',
    screen: 'a photo of that screen',
    plugs: 'a photo of the plugs',
    back: 'a photo of the back of the machine',
  },
  photo: 'Or send {photo}.',
  link: 'Put it in here, or send {photo} there: {link}',
  sign: 'Thanks,\n{builder}, {shop}',
  answerLink: 'All of it, and a place to ask more: {link}',
} as const
