import type { Case, Fan, FanPlace } from '../../part.ts'
import { rule } from '../rule.ts'
import { type Situation, touches } from '../situation.ts'
import { isUsable, type Spec, spec } from '../spec.ts'

/**
 * Fans: all fans of the machine must find places of their size. Rows of one place are alternatives: a front for
 * 3 x 120 mm or 2 x 140 mm takes fans of one row only. Every choice of rows is looked at. A list counts as complete.
 */
export const caseFans = rule({
  id: 'case.fans',
  source: {
    kind: 'common practice',
    text: "case's data sheet: fan places by size; a frame fits holes of its own size",
  },
  reads: [],
  verdicts: ['fits', 'does not fit'],
  applies: (s) => comesIn(s) || (touches(s, 'case') && s.after.fans.length > 0),
  about: (s) => (touches(s, 'case') ? s.after.case : s.after.fans.at(-1)),
  specs: ({ after }) => ({
    fanMm: after.fans.map((fan) => spec(fan, 'fan', 'sizeMm')),
    places: placesSpec(after.case),
  }),
  values: (_, __, { after }) => {
    const all = after.case?.fanPlaces ?? []
    const best = bestRows(all, after.fans)
    return {
      fans: after.fans.length,
      fanSizes: sizesOf(after.fans).map(([sizeMm, count]) => rowText({ sizeMm, count })),
      places: all.map(placeText),
      placing: best.rows.map(placeText),
      homeless: best.homeless,
    }
  },
  verdict: ({ homeless }) => (homeless === 0 ? 'fits' : 'does not fit'),
  cautions: () => ['hot-parts'],
})

/** A fan is there that was not: more of one model than before, or a new model. */
const comesIn = ({ before, after }: Situation): boolean => {
  const count = (fans: readonly Fan[], id: string) => fans.filter((fan) => fan.id === id).length
  return after.fans.some(({ id }) => count(after.fans, id) > count(before.fans, id))
}

const placeText = (row: FanPlace): string => `${row.place} ${rowText(row)}`
const rowText = ({ count, sizeMm }: Pick<FanPlace, 'count' | 'sizeMm'>): string => `${count} × ${sizeMm} mm`

const placesSpec = (box: Case | undefined): Spec<readonly string[]> => ({
  value: isUsable(box?.fanPlaces) ? box?.fanPlaces?.map(placeText) : undefined,
  missing:
    box === undefined
      ? spec(box, 'case', 'id').missing
      : { spec: 'fanPlaces', partId: box.id, partName: box.name },
})

const sizesOf = (fans: readonly Fan[]): [sizeMm: number, count: number][] => {
  const counts = new Map<number, number>()
  for (const { sizeMm = 0 } of fans) counts.set(sizeMm, (counts.get(sizeMm) ?? 0) + 1)
  return [...counts].sort(([a], [b]) => a - b)
}

/** One row of each place, so that as few fans as possible have none. */
function bestRows(all: readonly FanPlace[], fans: readonly Fan[]) {
  const sizes = sizesOf(fans)
  const homelessIn = (rows: readonly FanPlace[]): number =>
    sizes.reduce((sum, [sizeMm, count]) => {
      const room = rows.reduce((n, row) => n + (row.sizeMm === sizeMm ? row.count : 0), 0)
      return sum + Math.max(0, count - room)
    }, 0)
  let choices: readonly (readonly FanPlace[])[] = [[]]
  for (const place of new Set(all.map((row) => row.place))) {
    const rows = rowsThatCount(all.filter((row) => row.place === place))
    choices = choices.flatMap((chosen) => rows.map((row) => [...chosen, row]))
  }
  return choices
    .map((rows) => ({ rows, homeless: homelessIn(rows) }))
    .reduce((best, choice) => (choice.homeless < best.homeless ? choice : best), {
      rows: [] as readonly FanPlace[],
      homeless: fans.length,
    })
}

/** Of several rows with one size, the one with most room. */
function rowsThatCount(rows: readonly FanPlace[]): readonly FanPlace[] {
  return rows.filter(
    (row, i) =>
      !rows.some(
        (other, j) =>
          other.sizeMm === row.sizeMm && (other.count > row.count || (other.count === row.count && j < i)),
      ),
  )
}
