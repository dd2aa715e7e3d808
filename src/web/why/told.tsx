import type { TitleGain } from '../../core/gain/gain.ts'
import type { EndWhy, Why } from '../../core/gain/whyTypes.ts'
import type { WhyView } from '../../uses/gain/whyNumber.ts'
import { WHY_EN } from '../../words/en/why.ts'
import type { Figures } from '../../words/figures.ts'

/** What every piece of the page needs; made once a page. */
export type Told = { readonly view: WhyView; readonly figures: Figures }

export type Numbered = Exclude<TitleGain, { grade: 'no number' }>

/** Both ends, today's first. */
export const endsOf = ({ before, after }: Why): readonly (readonly [string, EndWhy])[] => [
  [WHY_EN.today, before],
  [WHY_EN.after, after],
]

/** Percent to one decimal with its sign. */
export const signed = (pct: number, figures: Figures): string =>
  `${pct > 0 ? '+' : ''}${figures.decimal(Math.round(pct * 10) / 10)}%`

export const RunLink = ({ id }: { id: string }) => <a href={`/runs/${encodeURIComponent(id)}`}>{id}</a>

export const RunLinks = ({ ids }: { ids: readonly string[] }) => (
  <>
    {ids.map((id, i) => (
      <>
        {i > 0 && ', '}
        <RunLink id={id} />
      </>
    ))}
  </>
)
