import type { Hindrance } from '../core/outbox/hindrance.ts'
import type { Stale } from '../core/outbox/stale.ts'
import { OUTBOX_EN } from './en/outbox.ts'
import { ROUNDS_EN } from './en/rounds.ts'
import type { Figures } from './figures.ts'
import { fill } from './say.ts'

/** What stands in the way of a mail, and what to do about it. */
export function sayHindrance(hindrance: Hindrance, figures: Figures): string {
  const line = OUTBOX_EN.hindrances[hindrance.why]
  if ('until' in hindrance) return fill(line, { dateTime: figures.dateTime(hindrance.until) })
  return 'at' in hindrance ? fill(line, { date: figures.date(hindrance.at) }) : line
}

/** What grew old about the answer behind a mail. */
export const sayStale = ({ why, at }: Stale, figures: Figures): string =>
  fill(OUTBOX_EN.stale[why], { date: figures.date(at) })

/** What a step of a mail says: a server's own words, or why it was held back. */
export function saySays(says: string, figures: Figures): string {
  if (!Object.hasOwn(OUTBOX_EN.hindrances, says))
    return Object.hasOwn(ROUNDS_EN.why, says) ? (ROUNDS_EN.why[says] ?? says) : says
  const why = says as Hindrance['why']
  const plain: Partial<Record<Hindrance['why'], string>> = {
    'quiet hours': 'quiet hours',
    'said gone': 'its owner said that the machine has gone',
    cap: 'as many offers as you allow',
    'quiet period': 'they had another offer lately',
    'over by then': 'when it may go the offer is over',
    'came back': 'a mail to this address came back',
  }
  return plain[why] ?? sayHindrance({ why } as Hindrance, figures)
}
