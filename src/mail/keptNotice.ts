import { z } from 'zod'
import { GRADES } from '../core/gain/gain.ts'
import { LANGUAGES } from '../core/language.ts'
import { VERDICTS } from '../core/verdict.ts'
import type { Block, Notice, NoticeEdits } from '../words/mails/notice.ts'

// A drafted notice is kept as plain data beside what is drawn of it, so that a person can change the words around its
// figures without anything being worked out again. Read back it is checked like all that is stored.

const text = z.string()
const texts = z.array(text)
const piece = z.strictObject({ text, strong: z.boolean() })
const verdictSaid = { verdict: z.enum(VERDICTS), word: text }
const item = z.strictObject({ ...verdictSaid, what: text, says: texts })
const grade = z.strictObject({ word: text, says: text })

const pick = z.strictObject({
  ...verdictSaid,
  what: text,
  reason: texts,
  grade: grade.extend({ grade: z.enum(GRADES) }).optional(),
  figures: z.array(z.strictObject({ figure: text, what: text })),
  useful: texts,
})

const bar = z.strictObject({
  beforeFps: z.number(),
  afterFps: z.number().optional(),
  lowFps: z.number().optional(),
  highFps: z.number().optional(),
})

const games = z.strictObject({
  head: text,
  intro: texts,
  drawn: texts,
  targetFps: z.number(),
  displayHz: z.number().optional(),
  targetSays: text,
  displaySays: text.optional(),
  rows: z.array(z.strictObject({ title: text, says: z.array(piece), notes: texts, bar: bar.optional() })),
  more: texts,
})

const priceRow = z.strictObject({ what: text, note: text.optional(), figure: text, sum: z.boolean() })

const block: z.ZodType<Block> = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('says'), head: text.optional(), says: texts }),
  z.strictObject({ is: z.literal('quote'), head: text, words: text }),
  z.strictObject({
    is: z.literal('facts'),
    head: text,
    rows: z.array(z.strictObject({ label: text, text })),
  }),
  z.strictObject({
    is: z.literal('orders'),
    head: text,
    lead: texts.optional(),
    rows: texts,
    end: text.optional(),
  }),
  z.strictObject({ is: z.literal('pick'), pick }),
  z.strictObject({ is: z.literal('games'), games }),
  z.strictObject({ is: z.literal('price'), head: text, rows: z.array(priceRow), notes: texts }),
  z.strictObject({ is: z.literal('items'), head: text, items: z.array(item), more: texts }),
  z.strictObject({ is: z.literal('known'), head: text, grades: z.array(grade), more: texts }),
])

const notice: z.ZodType<Notice> = z.strictObject({
  lang: z.string().refine((lang) => LANGUAGES.some((language) => lang.startsWith(language))),
  subject: text,
  preheader: text,
  shopName: text,
  tag: text.optional(),
  masthead: text,
  greeting: text,
  opening: texts,
  lead: z.strictObject({ answer: text, more: texts }),
  reply: z.strictObject({ words: text, href: text, note: text, text }),
  blocks: z.array(block),
  closing: texts,
  sign: texts,
  foot: z.strictObject({
    why: text,
    loads: text,
    who: texts,
    optOut: z.strictObject({ says: text, words: text, href: text, text }).optional(),
  }),
})

const edits: z.ZodType<NoticeEdits> = z.strictObject({
  subject: text.optional(),
  opening: text.optional(),
  closing: text.optional(),
})

/**
 * A notice as it was kept; undefined for what no version of this program wrote. Such a mail can still be looked at,
 * approved and stopped, only its words stay as they are.
 */
export const readNotice = (kept: unknown): Notice | undefined => notice.safeParse(kept).data

/** What a person changed of it; nothing kept is nothing changed. */
export const readEdits = (kept: unknown): NoticeEdits => edits.safeParse(kept).data ?? {}
