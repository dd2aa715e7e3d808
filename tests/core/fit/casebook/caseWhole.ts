import type { Case, Part } from '../../../../src/core/part.ts'
import { FRONT } from './caseParts.ts'
import { chapter, type Draft } from './compose.ts'
import { coolerOf, supply } from './parts.ts'
import { CITED } from './sources.ts'
import { large, pcieDrive } from './storageParts.ts'
import { KNOWN, licence, whole, wholeCase, wholeMachine, zen2 } from './swapParts.ts'

/** The machine moves into another case, all facts known. */
const into = (
  figures: Partial<Case>,
  ...stays: readonly Part[]
): Pick<Draft, 'has' | 'claims' | 'add' | 'about' | 'source'> => ({
  has: wholeMachine(whole('B450'), zen2, ...stays),
  claims: KNOWN,
  add: [wholeCase('new', figures)],
  about: 'whole',
  source: CITED.practice,
})

export const caseWhole = chapter('case', 'case', [
  {
    ...into({}),
    id: 'case-whole-fits',
    says: 'Board, card, cooler, supply, fan, drive and front panel all go along.',
    verdict: 'fits',
    reason: 'microATX listed, 240 mm in 400 mm, 150 mm in 170 mm, ATX supply, 1 fan, all headers there',
  },
  {
    ...into({}),
    claims: KNOWN.filter((c) => c.key !== 'systemLicence' && c.key !== 'diskEncrypted'),
    id: 'case-whole-asks-no-licence',
    says: 'A new case asks neither for the licence nor for the recovery key.',
    tricky: true,
    verdict: 'fits',
    reason: 'the board stays',
  },
  {
    ...into({}),
    claims: [...KNOWN.filter((c) => c.key !== 'systemLicence'), licence('tied to the board')],
    id: 'case-whole-licence-stays',
    says: 'A licence tied to the board moves into the new case with it.',
    verdict: 'fits',
    reason: 'the board stays',
    source: CITED.licence,
  },
  {
    ...into({ supplyForms: ['SFX', 'SFX-L'] }),
    id: 'case-whole-supply-form',
    says: 'The smaller case takes SFX supplies, and the ATX supply stays behind.',
    verdict: 'does not fit',
    reason: 'ATX supply, the new case takes SFX',
    source: CITED.supplyForms,
  },
  {
    ...into({}, supply('old SFX', { form: 'SFX', lengthMm: 100, sataPlugs: 4, processorPlug: '8-pin' })),
    id: 'case-whole-supply-bracket',
    says: 'The small supply moves into the large case with a bracket.',
    verdict: 'fits after work',
    reason: 'SFX behind an ATX opening with a bracket',
    source: CITED.supplyForms,
  },
  {
    ...into({ coolerRoomMm: 150 }),
    id: 'case-whole-cooler-at',
    says: 'The cooler has exactly its height.',
    verdict: 'fits',
    reason: '150 mm in 150 mm',
    source: CITED.coolerRoom,
  },
  {
    ...into({ coolerRoomMm: 149 }),
    id: 'case-whole-cooler-over',
    says: 'The cooler that stays is a millimetre too high for the new case.',
    tricky: true,
    verdict: 'does not fit',
    reason: '150 mm in 149 mm',
    source: CITED.coolerRoom,
  },
  {
    ...into({ coolerRoomMm: 149 }, coolerOf('low', { heightMm: 120 })),
    id: 'case-whole-low-cooler',
    says: 'A lower cooler goes along.',
    verdict: 'fits',
    reason: '120 mm in 149 mm',
    source: CITED.coolerRoom,
  },
  {
    ...into({ cardRoomMm: 239 }),
    id: 'case-whole-card-over',
    says: 'The card that stays is a millimetre too long for the new case.',
    verdict: 'does not fit',
    reason: '240 mm in 239 mm',
    source: CITED.tape,
  },
  {
    ...into({ cardRoomMm: 240 }),
    id: 'case-whole-card-at',
    says: 'The card that stays has exactly its length.',
    verdict: 'fits',
    reason: '240 mm in 240 mm',
    source: CITED.tape,
  },
  {
    ...into({ bays35: 0 }, pcieDrive('old'), large('old large')),
    id: 'case-whole-no-large-bay',
    says: 'A modern case without large bays leaves the 3.5-inch drive behind.',
    tricky: true,
    verdict: 'does not fit',
    reason: '0 bays for 3.5-inch, 1 drive',
    source: CITED.bays,
  },
  {
    ...into({ frontPlugs: [...FRONT, 'USB-C (key A)'] }),
    id: 'case-whole-usb-c',
    says: 'All goes along, and the USB-C port in front stays dead.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'USB-C (key A) plug without header',
    source: CITED.frontPanel,
  },
  {
    ...into({ frontPlugs: undefined }),
    id: 'case-whole-front-unknown',
    says: 'Nobody looked up the front panel of the new case.',
    verdict: "can't tell",
    reason: 'front panel plugs of the new case not known',
    needs: ['frontPlugs'],
    source: CITED.frontPanel,
  },
])
