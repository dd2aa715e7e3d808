import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Front panel: each plug of the case needs a header of its kind on the board, one each. Without it the port in front
 * stays dead, and the machine works. The power button needs none of these. Lists count as complete.
 */
export const caseFrontPanel = rule({
  id: 'case.frontPanel',
  source: {
    kind: 'common practice',
    text: "case's data sheet: front plugs; board's manual: headers. USB 2.0, USB 3 19-pin and USB-C key A headers differ in shape",
  },
  reads: [],
  verdicts: ['fits', 'fits slower'],
  applies: (s) => s.after.board !== undefined && touches(s, 'board', 'case'),
  about: (s) => (touches(s, 'board') ? s.after.board : s.after.case),
  specs: ({ after }) => ({
    frontPlugs: spec(after.case, 'case', 'frontPlugs'),
    frontHeaders: spec(after.board, 'board', 'frontHeaders'),
  }),
  values: ({ frontPlugs, frontHeaders }) => ({
    frontPlugs,
    frontHeaders,
    deadPlugs: without(frontPlugs, frontHeaders),
  }),
  verdict: ({ deadPlugs }) => (deadPlugs.length === 0 ? 'fits' : 'fits slower'),
})

/** The plugs for which no header is left: one header serves one plug. */
function without(plugs: readonly string[], headers: readonly string[]): string[] {
  const free = [...headers]
  return plugs.filter((plug) => {
    const at = free.indexOf(plug)
    if (at >= 0) free.splice(at, 1)
    return at < 0
  })
}
