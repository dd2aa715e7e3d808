import type { Title } from '../core/gain/run.ts'
import type { MessageRead, Read } from '../core/reading/message.ts'
import { ASK_WORDS } from './en/questionForm.ts'
import type { Figures } from './figures.ts'
import { KIND_WORDS } from './options.ts'
import { oneLine } from './say.ts'

/** What was read from a pasted message, a line each, with the words it came from; then what stayed open. */
export function sayRead(read: MessageRead, titles: readonly Title[], figures: Figures): string[] {
  const line = <V>(what: string, from: Read<V> | undefined, say: (value: V) => string): string[] =>
    from === undefined ? [] : [`${what}: ${say(from.value)}, from “${oneLine(from.from)}”`]
  const part = read.partInMind
  return [
    ...line('Machine', read.tag, (tag) => tag),
    ...line('What is asked', read.asks, (ask) => ASK_WORDS.shop[ask]),
    ...line('Part in mind', part, ({ kind, words, priceMinor }) =>
      [
        `${oneLine(words)} (${KIND_WORDS[kind]})`,
        ...(priceMinor === undefined ? [] : [`for ${figures.money(priceMinor)}`]),
      ].join(' '),
    ),
    ...line('What bothers', read.complaint, (complaint) => complaint),
    ...(read.asks !== undefined && read.asks.value !== 'something is wrong' && read.complaints.length > 0
      ? ['Two questions in one: save this one, then take down what bothers as a question of its own']
      : []),
    ...read.titleIds.flatMap((title) =>
      line('Title', title, (id) => oneLine(titles.find((t) => t.id === id)?.name ?? id)),
    ),
    ...line('Wanted frame rate', read.targetFps, (fps) => figures.fps(fps)),
    ...line('Budget', read.budgetMinor, (minor) => figures.money(minor)),
    ...line('Display', read.size, ({ widthPx, heightPx }) => `${widthPx}×${heightPx}`),
    ...line('Refresh rate', read.refreshHz, (hz) => figures.named('refreshHz', hz)),
    ...(read.unsure.length === 0
      ? []
      : [`Not sure, so left out: ${read.unsure.map((from) => `“${oneLine(from)}”`).join(', ')}`]),
  ]
}
