import type { Age } from '../core/gain/age.ts'
import { capOf, isCapped } from '../core/gain/capped.ts'
import type { Fitted, Run, Setting, Title } from '../core/gain/run.ts'
import type { ShopPolicy } from '../core/shop.ts'
import { type LowKey, RUN_EN } from './en/runs.ts'
import type { Figures } from './figures.ts'
import { fill, formOf } from './say.ts'

export type { LowKey } from './en/runs.ts'

const words = RUN_EN
const plurals = new Intl.PluralRules('en')

const fps = (n: number, figures: Figures): string => `${figures.decimal(n)}\u00a0FPS`

type Held = { readonly setting: Setting | undefined; readonly title: Title | undefined }

/** The average of a run: "75.7 FPS", and for one that its cap held "at least 59.8 FPS". */
export const sayAverage = (run: Run, { setting, title }: Held, figures: Figures): string =>
  isCapped(run, setting, title)
    ? fill(words.atLeast, { fps: fps(run.averageFps, figures) })
    : fps(run.averageFps, figures)

/** Why a run says "at least"; undefined for one that nothing held. */
export function sayCapped(run: Run, { setting, title }: Held, figures: Figures): string | undefined {
  const cap = capOf(setting, title)
  return cap !== undefined && isCapped(run, setting, title)
    ? fill(words.capped, { fps: fps(cap, figures) })
    : undefined
}

/** "old: an older version"; undefined for a run of today. */
export const sayOld = (age: Age, { runWindowDays }: ShopPolicy, figures: Figures): string | undefined =>
  age === 'current' ? undefined : fill(words.ages[age], { days: figures.number(runWindowDays) })

export type LowSaid = {
  readonly key: LowKey
  readonly name: string
  readonly means: string
  readonly short: string
  readonly says: string
}

/** Every low that a run has, with what it means: two go by the name of 1% low. */
export const lowsOf = (run: Pick<Run, LowKey>, figures: Figures): readonly LowSaid[] =>
  (['low1Fps', 'low1MeanFps', 'low01Fps', 'low01MeanFps'] as const).flatMap((key) => {
    const value = run[key]
    return value === undefined ? [] : [{ key, ...words.lows[key], says: fps(value, figures) }]
  })

/** Memory, link, large window and power limits as they ran. */
export function sayAsItRan(
  { memory, link, ...set }: Omit<Fitted, 'processorId' | 'cardId'>,
  figures: Figures,
): string {
  const { totalGB, memoryType, rateMts, channels } = memory
  return [
    fill(words.memory, {
      totalGB: figures.named('totalGB', totalGB),
      memoryType,
      rateMts: figures.named('rateMts', rateMts),
    }),
    fill(formOf(words.channels, channels, plurals), { n: figures.number(channels) }),
    fill(words.link, { gen: figures.number(link.gen), lanes: figures.number(link.lanes) }),
    set.largeBar === undefined ? undefined : words.largeBar[set.largeBar ? 'yes' : 'no'],
    set.processorLimitW === undefined
      ? undefined
      : fill(words.processorLimit, { watts: figures.named('limitW', set.processorLimitW) }),
    set.cardLimitW === undefined
      ? undefined
      : fill(words.cardLimit, { watts: figures.named('limitW', set.cardLimitW) }),
  ]
    .filter((piece) => piece !== undefined)
    .join(', ')
}
