import type { Case, Fan, FanPlace } from '../../../../src/core/part.ts'
import { FRONT, fronted, PLACES } from './caseParts.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, chassis, cpu, fan, machine, tape } from './parts.ts'
import { CITED } from './sources.ts'

const main = fronted(board('B450'))
const r3000 = cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5')
const sized = (sizeMm: number | undefined, id = 'new'): Fan => ({ ...fan(id), sizeMm })
const fans = (count: number, sizeMm = 120): readonly Fan[] =>
  Array.from({ length: count }, (_, at) => sized(sizeMm, `${sizeMm} ${at + 1}`))
const places = (fanPlaces: readonly FanPlace[] | undefined, id = 'old'): Case =>
  chassis(id, { fanPlaces, frontPlugs: FRONT })

const into = (
  box: Case,
  fitted: readonly Fan[],
  next: Fan | Case,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(main, r3000, box, ...fitted),
  add: [next],
  source: CITED.fanPlaces,
})

/** With the front fans in, 300 mm; without them, 325 mm. */
const long = (lengthMm: number): Pick<Draft, 'has' | 'add' | 'claims' | 'about' | 'source'> => ({
  has: machine(main, r3000, places(PLACES), fan('front')),
  claims: [tape(300), { key: 'cardRoomFreeMm', value: 325, source: 'measured' }],
  add: [card(`${lengthMm} mm`, { lengthMm })],
  about: 'graphics',
  source: CITED.tape,
})

export const caseFans = chapter('case', 'case', [
  {
    ...into(places(PLACES), fans(1), sized(120)),
    id: 'case-fan-free-place',
    says: 'A second fan finds a place.',
    verdict: 'fits',
    reason: '3 x 120 mm in front and 1 in the rear for 2 fans',
  },
  {
    ...into(places(PLACES), fans(3), sized(120)),
    id: 'case-fan-last-place',
    says: 'The fourth fan takes the last place.',
    verdict: 'fits',
    reason: '3 + 1 places of 120 mm for 4 fans',
  },
  {
    ...into(places(PLACES), fans(4), sized(120)),
    id: 'case-fan-no-place',
    says: 'Two rows for the front are a choice: the fifth fan has no place.',
    tricky: true,
    verdict: 'does not fit',
    reason: '3 + 1 places of 120 mm for 5 fans; the 140 mm row is the same front',
  },
  {
    ...into(places(PLACES), [...fans(2, 140), ...fans(1)], sized(120)),
    id: 'case-fan-front-taken-by-140',
    says: 'Two 140 mm fans fill the front, so the second 120 mm fan has no place.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'front 2 x 140 mm, rear 1 x 120 mm for 2 fans of 120 mm',
  },
  {
    ...into(places(PLACES), fans(2, 140), sized(120)),
    id: 'case-fan-140-and-120',
    says: 'Two 140 mm fans in front leave the rear for a 120 mm fan.',
    verdict: 'fits',
    reason: 'front 2 x 140 mm, rear 1 x 120 mm',
  },
  {
    ...into(places(PLACES), fans(1), sized(140)),
    id: 'case-fan-moves-to-the-rear',
    says: 'The 140 mm fan needs the front, and the 120 mm fan has the rear.',
    tricky: true,
    verdict: 'fits',
    reason: 'front 1 of 2 x 140 mm, rear 1 x 120 mm',
  },
  {
    ...into(places(PLACES), fans(2), sized(140)),
    id: 'case-fan-one-140-spoils-the-front',
    says: 'One 140 mm fan makes the front a 140 mm front, and one of two 120 mm fans is left over.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'front as 140 mm: rear 1 x 120 mm for 2 fans of 120 mm',
  },
  {
    ...into(places([{ place: 'rear', sizeMm: 120, count: 1 }]), [], sized(140)),
    id: 'case-fan-140-in-120',
    says: 'A 140 mm fan does not go where 120 mm is listed.',
    verdict: 'does not fit',
    reason: 'holes 124.5 mm apart against 105 mm',
  },
  {
    ...into(places([{ place: 'front', sizeMm: 140, count: 2 }]), [], sized(120)),
    id: 'case-fan-120-in-140',
    says: 'A smaller fan does not go where only 140 mm is listed: the holes are elsewhere.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'holes 105 mm apart against 124.5 mm',
  },
  {
    ...into(places(undefined), [], sized(120)),
    id: 'case-fan-places-unknown',
    says: 'Nobody wrote down where fans go.',
    verdict: "can't tell",
    reason: 'fan places of the case not known',
    needs: ['fanPlaces'],
  },
  {
    ...into(places(PLACES), [], sized(undefined)),
    id: 'case-fan-size-unknown',
    says: 'A fan of unknown size is not promised.',
    verdict: "can't tell",
    reason: 'size of the fan not known',
    needs: ['sizeMm'],
  },
  {
    ...into(places(PLACES), fans(4), sized(120)),
    out: ['FAN 120 1'],
    id: 'case-fan-replaced',
    says: 'One fan goes and one comes.',
    verdict: 'fits',
    reason: '3 + 1 places of 120 mm for 4 fans',
  },
  {
    ...into(places(PLACES), fans(4), places([{ place: 'front', sizeMm: 120, count: 3 }], 'new')),
    id: 'case-fan-new-case-too-few',
    says: 'The new case has a place less than the machine has fans.',
    verdict: 'does not fit',
    reason: '3 places of 120 mm for 4 fans',
  },
  {
    ...into(places(undefined), fans(3), places([{ place: 'front', sizeMm: 120, count: 3 }], 'new')),
    id: 'case-fan-new-case-just-enough',
    says: 'The new case has a place for every fan; the old one is not asked.',
    verdict: 'fits',
    reason: '3 places of 120 mm for 3 fans',
  },
  {
    ...into(places(PLACES), fans(2), places(undefined, 'new')),
    id: 'case-fan-new-case-unknown',
    says: 'Nobody wrote down where fans go in the new case.',
    verdict: "can't tell",
    reason: 'fan places of the new case not known',
    needs: ['fanPlaces'],
  },
  {
    ...into(places(PLACES), [], places(undefined, 'new')),
    id: 'case-fan-new-case-not-asked',
    says: 'A machine without fans of its own does not ask for places.',
    tricky: true,
    verdict: 'fits',
    reason: 'no fan to place',
  },
  {
    has: machine(main, r3000, places(undefined), fan('front')),
    add: [card('new')],
    id: 'case-fan-not-touched',
    says: 'A new card does not ask where the fans sit that are in there.',
    tricky: true,
    verdict: 'fits',
    reason: 'neither case nor fan changes',
    source: CITED.practice,
  },
  {
    ...long(300),
    id: 'case-long-card-beside-fan',
    says: 'The card goes in with the front fan where it is.',
    verdict: 'fits',
    reason: '300 mm in 300 mm',
    values: { lengthMm: 300, roomMm: 300 },
  },
  {
    ...long(301),
    id: 'case-long-card-one-over',
    says: 'One millimetre more, and the front fan moves.',
    verdict: 'fits after work',
    reason: '301 mm in 300 mm with the fan, 325 mm without',
    values: { lengthMm: 301 },
  },
  {
    ...long(325),
    id: 'case-long-card-fan-moved',
    says: 'Without the front fan the card has exactly its length.',
    tricky: true,
    verdict: 'fits after work',
    reason: '325 mm in 300 mm with the fan, 325 mm without',
    values: { lengthMm: 325 },
  },
  {
    ...long(326),
    id: 'case-long-card-too-long',
    says: 'Moving the fan is not enough.',
    verdict: 'does not fit',
    reason: '326 mm in 325 mm without the fan',
    values: { lengthMm: 326 },
  },
  {
    ...long(320),
    add: [card('320 mm', { lengthMm: 320 }), chassis('new', { cardRoomMm: 310, fanPlaces: PLACES })],
    id: 'case-long-card-in-new-case',
    says: 'The room without fans was measured in the case that goes.',
    tricky: true,
    verdict: 'does not fit',
    reason: '320 mm in 310 mm of the new case',
    values: { lengthMm: 320, roomMm: 310 },
  },
])
