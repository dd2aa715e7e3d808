import type { Letter } from '../words/answer/letter.ts'
import { isolatedMail, isolatedText } from '../words/isolate.ts'
import type { Notice } from '../words/mails/notice.ts'
import type { SheetMail } from '../words/sheetMail.ts'
import { compileFrame, type Frame } from './frame.ts'
import { noticeSlots } from './noticeSlots.ts'
import { noticeText } from './noticeText.ts'
import { sheetSlots } from './sheetSlots.ts'
import { sheetText } from './sheetText.ts'
import { slotsOf } from './slots.ts'
import { textOf } from './text.ts'

/** What a mail is made of. */
export type Drawn = { readonly subject: string; readonly html: string; readonly text: string }

let answerFrame: Promise<Frame> | undefined
let sheetFrame: Promise<Frame> | undefined
let noticeFrame: Promise<Frame> | undefined

/**
 * Subject, HTML and text of an answer. The frame is compiled on first use (about 0.3 s, most of it loading MJML) and
 * then only filled. Throws when the frame in `emails/` is not whole.
 */
export async function renderAnswer(letter: Letter): Promise<Drawn> {
  answerFrame ??= compileFrame(new URL('../../emails/answer.mjml', import.meta.url))
  const frame = await answerFrame
  return {
    subject: isolatedText(letter.subject),
    html: isolatedMail(frame.fill(slotsOf(letter))),
    text: isolatedText(textOf(letter)),
  }
}

/** The same of a limits sheet. */
export async function renderSheet(mail: SheetMail): Promise<Drawn> {
  sheetFrame ??= compileFrame(new URL('../../emails/sheet.mjml', import.meta.url))
  const frame = await sheetFrame
  return {
    subject: isolatedText(mail.subject),
    html: isolatedMail(frame.fill(sheetSlots(mail))),
    text: isolatedText(sheetText(mail)),
  }
}

/** A drawn notice with the words it was drawn of, which are kept beside it. */
export type DrawnNotice = Drawn & { readonly notice: Notice }

/** The same of every other mail. */
export async function renderNotice(mail: Notice): Promise<DrawnNotice> {
  noticeFrame ??= compileFrame(new URL('../../emails/notice.mjml', import.meta.url))
  const frame = await noticeFrame
  return {
    subject: isolatedText(mail.subject),
    html: isolatedMail(frame.fill(noticeSlots(mail))),
    text: isolatedText(noticeText(mail)),
    notice: mail,
  }
}
