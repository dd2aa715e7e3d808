import { rule } from '../rule.ts'
import { touches } from '../situation.ts'
import { spec } from '../spec.ts'
import { placesM2 } from '../storage/drives.ts'
import { placesBeside } from '../storage/placing.ts'

/**
 * Shared lanes: on some boards an M.2 slot takes lanes from the graphics slot while a drive sits in it. Judged only
 * on boards that list it, for cards that need more lanes than are then left. Where the change places drives and the
 * board's list tells which slot shares, storage.sharing says what they take; drives on cables take none.
 */
export const graphicsSharing = rule({
  id: 'graphics.sharing',
  source: { kind: 'vendor', text: 'board page: lanes that the graphics slot shares with an M.2 slot' },
  reads: ['sharedM2Used'],
  mayRead: ['slotLanesShared'],
  verdicts: ['fits', 'fits slower'],
  applies: (s, { slotLanesShared }) =>
    (s.after.card?.pcieLanes ?? 0) > (slotLanesShared ?? Number.POSITIVE_INFINITY) &&
    (touches(s, 'card', 'board') || placesM2(s)) &&
    !placesBeside(s),
  about: ({ after }) => after.card,
  specs: ({ after }) => ({ cardLanes: spec(after.card, 'card', 'pcieLanes') }),
  values: ({ cardLanes }, { sharedM2Used, slotLanesShared }) => ({
    cardLanes,
    leftLanes: slotLanesShared,
    driveInIt: sharedM2Used === 'yes',
  }),
  verdict: ({ driveInIt }) => (driveInIt ? 'fits slower' : 'fits'),
})
