import type { Display } from '../core/question.ts'

/** Size and rate of a display, such as "1920×1080, 75 Hz"; undefined where nobody said either. */
export function displayWords({ widthPx, heightPx, refreshHz }: Display): string | undefined {
  const said = [
    ...(widthPx === undefined || heightPx === undefined ? [] : [`${widthPx}×${heightPx}`]),
    ...(refreshHz === undefined ? [] : [`${refreshHz}\u00a0Hz`]),
  ]
  return said.length === 0 ? undefined : said.join(', ')
}
