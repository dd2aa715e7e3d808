import type { CasePlace } from '../../part.ts'
import type { Situation } from '../situation.ts'
import { isUsable, type Spec, spec } from '../spec.ts'

/** Where the case takes a radiator of the cooler's size; nothing known while its list or the size is not. */
export function placesFor({ after }: Situation): Spec<readonly CasePlace[]> {
  const places = after.case?.radiatorPlaces
  const sizeMm = after.cooler?.radiatorMm
  const { missing } = spec(after.case, 'case', 'radiatorPlaces')
  if (places === undefined || !isUsable(places) || !isUsable(sizeMm)) return { value: undefined, missing }
  return { value: places.filter((row) => row.sizeMm === sizeMm).map(({ place }) => place), missing }
}
