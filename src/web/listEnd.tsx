import { LISTED_MOST, pathWhole, type Shown } from './answerContext.ts'

/** As much of a long list as stands on the page. */
export const listed = <T,>(list: readonly T[], shown: Shown): readonly T[] =>
  shown.isWhole === true ? list : list.slice(0, LISTED_MOST)

/** Under a list that was cut: how many more there are, and where. */
export const ListEnd = ({ of, shown }: { of: readonly unknown[]; shown: Shown }) => {
  const left = of.length - listed(of, shown).length
  if (left === 0) return null
  return (
    <p>
      <a href={pathWhole(shown)}>{`All lists in full, with ${shown.figures.count(left)} more here`}</a>
    </p>
  )
}
