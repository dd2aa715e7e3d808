import type { Board, Case, FrontPlug } from '../../../../src/core/part.ts'
import { FRONT, fronted, PLACES } from './caseParts.ts'
import { chapter, type Draft } from './compose.ts'
import { board, chassis, cpu, fan, machine } from './parts.ts'
import { CITED } from './sources.ts'

const r3000 = cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5')
const has = (frontHeaders: readonly FrontPlug[] | undefined, id = 'old'): Board => ({
  ...board('B450', { id: `BOARD ${id}` }),
  frontHeaders,
})
const box = (frontPlugs: readonly FrontPlug[] | undefined, id = 'new'): Case =>
  chassis(id, { frontPlugs, fanPlaces: PLACES })

/** A case with these plugs comes to a board with these headers. */
const into = (
  headers: readonly FrontPlug[] | undefined,
  next: readonly FrontPlug[] | undefined,
): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(has(headers), r3000, box(FRONT, 'old')),
  add: [box(next)],
  source: CITED.frontPanel,
})

export const caseFront = chapter('case', 'case', [
  {
    ...into(FRONT, FRONT),
    id: 'case-front-all',
    says: 'Every plug of the front panel has its header.',
    verdict: 'fits',
    reason: 'USB 2.0, USB 3 and HD audio at both ends',
  },
  {
    ...into(FRONT, [...FRONT, 'USB-C (key A)']),
    id: 'case-front-usb-c-missing',
    says: 'The board has no header for USB-C: that port of the case stays dead.',
    verdict: 'fits slower',
    reason: 'USB-C (key A) plug without header',
  },
  {
    ...into([...FRONT, 'USB-C (key A)'], [...FRONT, 'USB-C (key A)']),
    id: 'case-front-usb-c-there',
    says: 'With the header the USB-C port of the case works.',
    verdict: 'fits',
    reason: 'USB-C (key A) at both ends',
  },
  {
    ...into([...FRONT, 'USB-C (key A)'], FRONT),
    id: 'case-front-header-to-spare',
    says: 'A header that no plug needs is no loss of the case.',
    verdict: 'fits',
    reason: 'all three plugs have a header',
  },
  {
    ...into(FRONT, [...FRONT, 'USB 3 (19-pin)']),
    id: 'case-front-two-plugs-one-header',
    says: 'Two USB 3 plugs and one USB 3 header: the kind is there, the count is not.',
    tricky: true,
    verdict: 'fits slower',
    reason: '2 plugs of 19 pins, 1 header',
  },
  {
    ...into([...FRONT, 'USB 3 (19-pin)'], [...FRONT, 'USB 3 (19-pin)']),
    id: 'case-front-two-plugs-two-headers',
    says: 'Two headers serve two plugs.',
    verdict: 'fits',
    reason: '2 plugs of 19 pins, 2 headers',
  },
  {
    ...into(['USB 2.0', 'USB-C (key A)', 'HD audio'], FRONT),
    id: 'case-front-newer-header-no-help',
    says: 'The newer USB-C header does not take the 19-pin plug.',
    tricky: true,
    verdict: 'fits slower',
    reason: '19-pin plug without header; key A is another shape',
  },
  {
    ...into(undefined, FRONT),
    id: 'case-front-headers-unknown',
    says: 'Nobody looked up the headers of the board.',
    verdict: "can't tell",
    reason: 'front panel headers of the board not known',
    needs: ['frontHeaders'],
  },
  {
    ...into(FRONT, undefined),
    id: 'case-front-plugs-unknown',
    says: 'Nobody looked up the plugs of the new case.',
    verdict: "can't tell",
    reason: 'front panel plugs of the new case not known',
    needs: ['frontPlugs'],
  },
  {
    has: machine(has(FRONT), r3000, box(FRONT, 'old')),
    add: [has(['USB 2.0', 'HD audio'], 'new')],
    id: 'case-front-new-board-without-usb-3',
    says: 'The new board lacks the USB 3 header that the case has used so far.',
    verdict: 'fits slower',
    reason: '19-pin plug without header',
    source: CITED.frontPanel,
  },
  {
    has: machine(has(undefined), r3000, box(FRONT, 'old')),
    add: [has(FRONT, 'new')],
    id: 'case-front-old-board-not-asked',
    says: 'What the old board had does not matter any more.',
    tricky: true,
    verdict: 'fits',
    reason: 'all three plugs have a header on the new board',
    source: CITED.frontPanel,
  },
  {
    has: machine(has(undefined), r3000, box(undefined, 'old')),
    add: [fan('new')],
    id: 'case-front-not-touched',
    says: 'A fan asks nothing about the front panel.',
    tricky: true,
    verdict: 'fits',
    reason: 'neither board nor case changes; 3 + 1 places for 1 fan',
    source: CITED.practice,
  },
  {
    has: machine(fronted(board('B450')), r3000, box(FRONT, 'old'), fan('1'), fan('2')),
    add: [
      chassis('new', {
        frontPlugs: [...FRONT, 'USB-C (key A)'],
        fanPlaces: [{ place: 'rear', sizeMm: 120, count: 1 }],
      }),
    ],
    id: 'case-front-dead-port-and-no-fan-place',
    says: 'A dead port could be borne, a fan without a place decides.',
    verdict: 'does not fit',
    reason: '1 place of 120 mm for 2 fans; USB-C (key A) plug without header',
    source: CITED.fanPlaces,
  },
])
