import type { Case, Cooler, Part, RadiatorPlace } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, chassis, coolerOf, cpu, machine } from './parts.ts'
import { CITED } from './sources.ts'

const b550 = board('B550')
const zen3 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const water = (radiatorMm: number, figures?: Partial<Cooler>) =>
  coolerOf(`water ${radiatorMm}`, { heightMm: 55, radiatorMm, radiatorThicknessMm: 27, ...figures })
const front = (sizeMm: number): RadiatorPlace => ({ place: 'front', sizeMm })
const top = (sizeMm: number): RadiatorPlace => ({ place: 'top', sizeMm })
const box = (radiatorPlaces: readonly RadiatorPlace[] | undefined, figures?: Partial<Case>) =>
  chassis('with radiator places', { radiatorPlaces, cardRoomMm: 330, ...figures })
const long = (lengthMm: number | undefined) => card(`${lengthMm} mm`, { lengthMm })

const into = (
  home: Case,
  next: Cooler,
  ...fitted: readonly Part[]
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(b550, zen3, home, ...fitted),
  add: [next],
  source: CITED.radiator,
})

export const coolingRadiator = chapter('cooling', 'cooling', [
  {
    ...into(box([top(240)]), water(240), long(330)),
    id: 'cooling-radiator-top',
    says: 'A radiator under the lid takes nothing from the card.',
    verdict: 'fits',
    reason: '240 mm listed at the top',
  },
  {
    ...into(box([front(360)]), water(360), long(302)),
    id: 'cooling-radiator-front-under',
    says: 'Card and radiator leave a millimetre in front.',
    verdict: 'fits',
    reason: '302 + 27 = 329 mm of 330 mm',
    values: { needMm: 329, roomMm: 330 },
  },
  {
    ...into(box([front(360)]), water(360), long(303)),
    id: 'cooling-radiator-front-at',
    says: 'Card and radiator fill the length.',
    verdict: 'fits',
    reason: '303 + 27 = 330 mm of 330 mm',
    values: { needMm: 330, roomMm: 330 },
  },
  {
    ...into(box([front(360)]), water(360), long(304)),
    id: 'cooling-radiator-front-over',
    says: 'The case lists the radiator, and the card that is in it is one millimetre too long.',
    tricky: true,
    verdict: 'does not fit',
    reason: '304 + 27 = 331 mm of 330 mm',
    values: { needMm: 331, roomMm: 330 },
  },
  {
    ...into(box([front(240), top(240)]), water(240), long(330)),
    id: 'cooling-radiator-top-or-front',
    says: 'In front it would meet the card, and the same size goes to the top.',
    tricky: true,
    verdict: 'fits',
    reason: '330 + 27 = 357 mm of 330 mm in front; 240 mm listed at the top as well',
  },
  {
    ...into(box([front(360), top(240)]), water(360), long(310)),
    id: 'cooling-radiator-top-is-smaller',
    says: 'The place at the top is for a smaller one, so only the front is left.',
    tricky: true,
    verdict: 'does not fit',
    reason: '360 mm at the front only: 310 + 27 = 337 mm of 330 mm',
    values: { needMm: 337, roomMm: 330 },
  },
  {
    ...into(box([top(240), front(280)]), water(360)),
    id: 'cooling-radiator-too-large',
    says: 'No place of the case lists 360 mm.',
    verdict: 'does not fit',
    reason: '360 mm against 240 and 280 mm',
  },
  {
    ...into(box([top(360)]), water(280)),
    id: 'cooling-radiator-280-in-360',
    says: 'A 280 is shorter than a 360 and wider: two fans of 140 mm against three of 120.',
    tricky: true,
    verdict: 'does not fit',
    reason: '280 mm not listed; 140 mm wide against 120 mm',
  },
  {
    ...into(box(undefined), water(240)),
    id: 'cooling-radiator-places-unknown',
    says: 'Nobody wrote down where radiators go in this case.',
    verdict: "can't tell",
    reason: 'radiator places of the case not known',
    needs: ['radiatorPlaces'],
  },
  {
    ...into(box([]), water(120)),
    id: 'cooling-radiator-no-place',
    says: 'A case that has no place for a radiator is known, not unknown.',
    tricky: true,
    verdict: 'does not fit',
    reason: '120 mm against no place at all',
  },
  {
    ...into(box([{ place: 'rear', sizeMm: 120 }]), water(120), long(330)),
    id: 'cooling-radiator-rear',
    says: 'A small radiator at the rear.',
    verdict: 'fits',
    reason: '120 mm listed at the rear',
  },
  {
    ...into(box([{ place: 'side', sizeMm: 240 }]), water(240), long(330)),
    id: 'cooling-radiator-side',
    says: 'A radiator beside the board takes no length from the card.',
    verdict: 'fits',
    reason: '240 mm listed at the side',
  },
  {
    ...into(box([front(360)]), water(360, { radiatorThicknessMm: undefined })),
    id: 'cooling-radiator-thickness-unknown',
    says: 'A radiator of unknown thickness between front and card.',
    verdict: "can't tell",
    reason: '240 mm and an unknown thickness in 330 mm',
    needs: ['radiatorThicknessMm'],
  },
  {
    ...into(box([top(360)]), water(360, { radiatorThicknessMm: undefined })),
    id: 'cooling-radiator-thickness-not-asked',
    says: 'At the top nobody asks for the thickness because of the card.',
    verdict: 'fits',
    reason: '360 mm listed at the top',
  },
  {
    ...into(box([front(360)]), water(360), long(undefined)),
    id: 'cooling-radiator-card-unknown',
    says: 'Nobody knows how long the card behind the radiator is.',
    verdict: "can't tell",
    reason: 'an unknown length and 27 mm in 330 mm',
    needs: ['lengthMm'],
  },
  {
    ...into(box([front(360)], { cardRoomMm: undefined }), water(360)),
    id: 'cooling-radiator-room-unknown',
    says: 'Nobody measured the length in front of which the radiator goes.',
    verdict: "can't tell",
    reason: '240 + 27 = 267 mm of an unknown length',
    needs: ['cardRoomMm'],
  },
  {
    ...into(box([front(360)]), water(360)),
    id: 'cooling-radiator-tape-with-fans-in',
    says: 'The tape says 300 mm with the fans in, so the radiator comes on top of that.',
    tricky: true,
    claims: [{ key: 'cardRoomMm', value: 300, source: 'measured' }],
    has: machine(b550, zen3, box([front(360)]), long(280)),
    verdict: 'does not fit',
    reason: '280 + 27 = 307 mm of the measured 300 mm',
    values: { needMm: 307, roomMm: 300 },
    source: CITED.tape,
  },
  {
    ...into(box([front(360)]), water(360), long(320)),
    add: [water(360), long(280)],
    id: 'cooling-radiator-shorter-card-with-it',
    says: 'A shorter card comes with the radiator, and that one counts.',
    tricky: true,
    verdict: 'fits',
    reason: '280 + 27 = 307 mm of 330 mm; the old card of 320 mm goes',
    values: { needMm: 307, roomMm: 330 },
  },
  {
    ...into(box([top(360)], { coolerRoomMm: 60 }), water(360)),
    id: 'cooling-radiator-pump-in-low-case',
    says: 'Of a water cooler only the pump sits on the processor.',
    tricky: true,
    verdict: 'fits',
    reason: '55 mm in 60 mm; 360 mm listed at the top',
    values: { coolerMm: 55, roomMm: 60 },
  },
  {
    ...into(box([top(360)], { coolerRoomMm: 54 }), water(360)),
    id: 'cooling-radiator-pump-too-high',
    says: 'A pump has a height too.',
    verdict: 'does not fit',
    reason: '55 mm in 54 mm',
    values: { coolerMm: 55, roomMm: 54 },
  },
  {
    id: 'cooling-radiator-new-case',
    says: 'The water cooler stays, and the new case has no place for its radiator.',
    has: machine(b550, zen3, box([top(360)]), water(360)),
    add: [chassis('new', { radiatorPlaces: [top(240)] })],
    verdict: 'does not fit',
    reason: '360 mm against 240 mm in the new case',
    source: CITED.radiator,
  },
  {
    ...into(box([top(360)]), water(360, { sockets: ['LGA1700'], kitSockets: ['AM4'] })),
    id: 'cooling-radiator-kit',
    says: 'A water cooler needs the kit for the socket like any other.',
    verdict: 'fits after work',
    reason: 'kit for AM4 to be had; 360 mm listed at the top',
  },
])
