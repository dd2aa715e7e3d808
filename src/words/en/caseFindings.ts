import type { FindingWords } from './findings.ts'
import { or } from './or.ts'

type Here = Pick<FindingWords, 'case.board' | 'case.fans' | 'case.frontPanel'>

/** Board form, fans and front panel in a case. */
export const CASE_WORDS: Here = {
  'case.board': {
    fits: (v) => ({
      owner: `The board is ${v.boardForm}, and the case takes that.`,
      builder: `${v.boardForm} in ${v.caseForms}${v.strayPosts === '' ? '' : `; standoffs ${v.strayPosts} must be out, or they can short the board`}`,
    }),
    'does not fit': (v) => ({
      owner: `The board is ${v.boardForm}, and the case takes ${v.caseForms}.`,
      builder: `${v.boardForm} in ${v.caseForms}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether the board goes into the case.',
      builder: 'board form and case',
    }),
  },
  'case.fans': {
    fits: (v) => ({
      owner: `The case has a place for each fan: ${v.fanSizes}.`,
      builder: `fans ${v.fanSizes}; places used ${v.placing}`,
    }),
    'does not fit': (v) => ({
      owner: `The case has no place for each of these fans: ${v.fanSizes}.`,
      builder: `fans ${v.fanSizes} in ${or(v.places, 'no places')}: ${v.homeless} without a place`,
    }),
    "can't tell": () => ({
      owner: 'We do not know where your case takes fans.',
      builder: 'fan places of the case',
    }),
  },
  'case.frontPanel': {
    fits: () => ({
      owner: 'The board has a header for each plug of the front panel.',
      builder: 'front panel: every plug has its header',
    }),
    'fits slower': (v) => ({
      owner: `It works, and this stays dead at the front: ${v.deadPlugs}.`,
      next: 'The board has no header for it.',
      builder: `front plugs ${v.frontPlugs}; headers ${or(v.frontHeaders, 'none')}; dead ${v.deadPlugs}`,
    }),
    "can't tell": () => ({
      owner: 'We do not know whether the board has the headers for the front panel.',
      builder: 'front plugs of the case, headers of the board',
    }),
  },
}
