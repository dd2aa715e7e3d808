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
  photo: 'A photo is enough: of the label, or of the case inside.',
  link: 'Put it in here, or send a photo there: {link}',
  sign: 'Thanks,\n{builder}, {shop}',
  answerLink: 'All of it, and a place to ask more: {link}',
} as const
