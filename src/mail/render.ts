import type { Letter } from '../words/answer/letter.ts'
import { isolatedMail, isolatedText } from '../words/isolate.ts'
import { compileFrame, type Frame } from './frame.ts'
import { slotsOf } from './slots.ts'
import { textOf } from './text.ts'

let answerFrame: Promise<Frame> | undefined

/**
 * Subject, HTML and text of an answer. The frame is compiled on first use (about 0.3 s, most of it loading MJML) and
 * then only filled. Throws when the frame in `emails/` is not whole.
 */
export async function renderAnswer(
  letter: Letter,
): Promise<{ readonly subject: string; readonly html: string; readonly text: string }> {
  answerFrame ??= compileFrame(new URL('../../emails/answer.mjml', import.meta.url))
  const frame = await answerFrame
  return {
    subject: isolatedText(letter.subject),
    html: isolatedMail(frame.fill(slotsOf(letter))),
    text: isolatedText(textOf(letter)),
  }
}
