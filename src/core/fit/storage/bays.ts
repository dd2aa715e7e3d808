import type { Drive, DriveForm } from '../../part.ts'
import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { hasNoForm, isCabled, newDrives } from './drives.ts'

/**
 * Bays: a 3.5-inch drive needs a bay of its size; a 2.5-inch drive takes one of its own, or with a bracket a 3.5-inch
 * bay that no large drive needs.
 *
 *   large drives <= 3.5-inch bays
 *   small drives <= 2.5-inch bays, the others <= 3.5-inch bays - large drives, each with a bracket
 *
 * Only what the drives at hand need is asked for: two small drives in two small bays ask for no large one.
 */
export const storageBays = rule({
  id: 'storage.bays',
  source: {
    kind: 'standard',
    text: "SFF-8201 and SFF-8301, outlines of 2.5-inch and 3.5-inch drives; brackets: common practice; case's data sheet",
  },
  reads: [],
  mayRead: ['bays25', 'bays35'],
  verdicts: ['fits', 'fits after work', 'does not fit'],
  applies: (s) => newDrives(s).some(isCabled) || (touches(s, 'case') && s.after.drives.some(isCabled)),
  about: (s) => newDrives(s).find(isCabled) ?? s.after.case,
  specs: ({ after }) => ({
    forms: after.drives.filter(hasNoForm).map((drive) => spec(drive, 'drive', 'form')),
  }),
  values: (_, { bays25, bays35 }, s) => {
    const isNewCase = touches(s, 'case')
    const judges = (form: DriveForm) => countOf(isNewCase ? s.after.drives : newDrives(s), form) > 0
    const small = countOf(s.after.drives, '2.5-inch')
    const smallBefore = isNewCase ? 0 : countOf(s.before.drives, '2.5-inch')
    return {
      small,
      smallBefore,
      large: countOf(s.after.drives, '3.5-inch'),
      judgesLarge: judges('3.5-inch'),
      bays25: bays25 ?? UNKNOWN,
      bays35: bays35 ?? UNKNOWN,
      brackets: Math.max(0, small - Math.max(smallBefore, bays25 ?? small)),
    }
  },
  doubts: (v) =>
    (['bays25', 'bays35'] as const)
      .filter((key) => v[key] === UNKNOWN && matters(key, v))
      .map((limit) => ({ limit })),
  verdict: (v) =>
    outcome(v, Number(v.bays25 === UNKNOWN ? 0 : v.bays25), Number(v.bays35 === UNKNOWN ? 0 : v.bays35)),
  needs: (_, verdict) => (verdict === 'fits after work' ? [{ work: 'fit bracket' }] : []),
  cautions: () => ['esd'],
})

const UNKNOWN = 'not known'

type Counted = {
  readonly small: number
  readonly smallBefore: number
  readonly large: number
  readonly judgesLarge: boolean
  readonly bays25: number | string
  readonly bays35: number | string
}

function outcome({ small, smallBefore, large, judgesLarge }: Counted, bays25: number, bays35: number) {
  const inBrackets = Math.max(0, small - bays25)
  if (judgesLarge && large > bays35) return 'does not fit'
  if (inBrackets > Math.max(0, bays35 - large)) return 'does not fit'
  return inBrackets > Math.max(0, smallBefore - bays25) ? 'fits after work' : 'fits'
}

/** More bays than anybody has drives; with none at all, the two ends between which an unknown count lies. */
const PLENTY = 1000

/** Whether the answer hangs on this count, which nobody made. */
function matters(key: 'bays25' | 'bays35', v: Counted): boolean {
  const ends = (known: number | string): readonly number[] =>
    typeof known === 'number' ? [known] : [0, PLENTY]
  const at = (count: number) =>
    key === 'bays25'
      ? ends(v.bays35).map((large) => outcome(v, count, large))
      : ends(v.bays25).map((small) => outcome(v, small, count))
  return at(0).join() !== at(PLENTY).join()
}

const countOf = (drives: readonly Drive[], form: DriveForm): number =>
  drives.filter((drive) => drive.form === form).length
