import type { Claim } from '../../../../src/core/limits/limit.ts'
import type { Part, Processor } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { cpu, kit } from './parts.ts'
import { CITED } from './sources.ts'
import { pcieDrive } from './storageParts.ts'
import { i5of6, i5of7, i5of10, KNOWN, whole, wholeMachine } from './swapParts.ts'

const i5of8 = cpu('8th (Coffee Lake)', 'i5')
const trusted = (value: '2.0' | '1.2' | 'none'): Claim => ({
  key: 'trustModule',
  value,
  source: 'read',
  pinned: true,
})
const starts = (value: 'yes' | 'no'): Claim => ({ key: 'secureStart', value, source: 'read', pinned: true })
const READY = [trusted('2.0'), starts('yes')]

const next = (
  chipset: string,
  processor: Processor,
  claims: readonly Claim[] = READY,
  ...stays: readonly Part[]
): Pick<Draft, 'has' | 'claims' | 'work' | 'source'> => ({
  has: wholeMachine(whole(chipset), processor, ...stays),
  claims: [...KNOWN, ...claims],
  work: ['system upgrade'],
  source: CITED.nextSystem,
})

/** The next system version on a machine as it is. */
export const swapSystem = chapter('platform swap', 'system', [
  {
    ...next('B360', i5of8),
    id: 'system-8th',
    says: 'The 8th generation is the first of its maker on the list, and the rest is there.',
    verdict: 'fits',
    reason: '8th generation listed; trust module 2.0, secure start, 16 GB of 4 GB, 1000 GB of 64 GB',
  },
  {
    ...next('Z170', i5of7),
    id: 'system-7th',
    says: 'The 7th generation has the module, the secure start and the power, and is not on the list.',
    tricky: true,
    verdict: 'does not fit',
    reason: '7th generation not listed',
  },
  {
    ...next('B450', cpu('Ryzen 2000 (Zen+)', 'Ryzen 5')),
    id: 'system-ryzen-2000',
    says: 'Ryzen 2000 is on the list.',
    verdict: 'fits',
    reason: 'Ryzen 2000 listed; trust module 2.0, secure start, 16 GB, 1000 GB',
  },
  {
    ...next('B450', cpu('Ryzen 1000 (Zen)', 'Ryzen 5')),
    id: 'system-ryzen-1000',
    says: 'Ryzen 1000 is not, on the very same board.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'Ryzen 1000 not listed',
  },
  {
    ...next('B450', cpu('Ryzen 2000G (Raven Ridge)', '2400G')),
    id: 'system-ryzen-2400g',
    says: 'The 2000 models with a graphics unit are of the first generation inside and are not listed.',
    tricky: true,
    verdict: 'does not fit',
    reason: '2200G and 2400G not listed',
    note: 'The list of supported AMD processors is from memory here; the vendor page decides.',
  },
  {
    ...next('B360', i5of8, [starts('yes')]),
    id: 'system-module-unknown',
    says: 'Nobody looked at the trust module.',
    verdict: "can't tell",
    reason: 'trust module not known',
    needs: ['trustModule'],
  },
  {
    ...next('B360', i5of8, [trusted('2.0')]),
    id: 'system-secure-start-unknown',
    says: 'Nobody looked whether the firmware can start signed systems only.',
    verdict: "can't tell",
    reason: 'secure start not known',
    needs: ['secureStart'],
  },
  {
    ...next('B360', i5of8, []),
    id: 'system-two-unknown',
    says: 'Two looks into the firmware are missing, and both are named.',
    verdict: "can't tell",
    reason: 'trust module and secure start not known',
    needs: ['trustModule', 'secureStart'],
  },
  {
    ...next('Z170', i5of6, []),
    id: 'system-6th-nothing-read',
    says: 'A processor off the list decides, whatever the firmware would show.',
    tricky: true,
    verdict: 'does not fit',
    reason: '6th generation not listed; trust module and secure start not known',
  },
  {
    ...next('B360', i5of8, [trusted('none'), starts('yes')]),
    id: 'system-no-module',
    says: 'The board has no trust module.',
    verdict: 'does not fit',
    reason: 'trust module none, 2.0 required',
  },
  {
    ...next('B360', i5of8, [trusted('2.0'), starts('no')]),
    id: 'system-no-secure-start',
    says: 'The firmware cannot be set to start signed systems only.',
    verdict: 'does not fit',
    reason: 'secure start required, not to be had',
  },
  {
    ...next('B360', i5of8, READY, kit('DDR4', 1, 4, 2400)),
    id: 'system-memory-at',
    says: 'One module of 4 GB is what the vendor asks for, though nobody likes working with it.',
    tricky: true,
    verdict: 'fits',
    reason: '4 GB of 4 GB',
    values: { totalGB: 4 },
  },
  {
    ...next('B360', i5of8, READY, kit('DDR4', 1, 2, 2400)),
    id: 'system-memory-under',
    says: 'With 2 GB more memory has to come first.',
    verdict: 'fits after work',
    reason: '2 GB of 4 GB: memory comes along',
    values: { totalGB: 2 },
    note: 'The requirement is missed today; a part that the machine takes brings it.',
  },
  {
    ...next('B360', i5of8, READY, pcieDrive('64 GB', { capacityGB: 64 })),
    id: 'system-drive-at',
    says: 'A drive of exactly 64 GB is enough.',
    verdict: 'fits',
    reason: '64 GB of 64 GB',
    values: { capacityGB: 64 },
  },
  {
    ...next('B360', i5of8, READY, pcieDrive('60 GB', { capacityGB: 60 })),
    id: 'system-drive-under',
    says: 'A drive of 60 GB is too small: a larger one has to come first.',
    verdict: 'fits after work',
    reason: '60 GB of 64 GB: another drive comes along',
    values: { capacityGB: 60 },
    note: 'The requirement is missed today; a part that the machine takes brings it.',
  },
  {
    ...next('B360', i5of8, READY, pcieDrive('unread', { capacityGB: undefined })),
    id: 'system-drive-unknown',
    says: 'Nobody wrote down how large the drive is.',
    verdict: "can't tell",
    reason: 'capacity of the drive not known',
    needs: ['capacityGB'],
  },
  {
    ...next('B360', cpu('8th (Coffee Lake)', 'i5', { generation: undefined })),
    id: 'system-generation-unknown',
    says: 'A processor of unknown generation is not looked up on a list.',
    verdict: "can't tell",
    reason: 'generation of the processor not known',
    needs: ['generation'],
  },
  {
    ...next('Z170', i5of7),
    add: [whole('B460'), i5of10],
    id: 'system-module-of-the-old-board',
    says: 'The new processor is listed, and module and secure start were read on the board that goes.',
    tricky: true,
    verdict: "can't tell",
    reason: 'trust module and secure start of the new board not known',
    needs: ['trustModule', 'secureStart'],
  },
  {
    ...next('B360', i5of8, []),
    work: ['cleaning'],
    id: 'system-not-asked',
    says: 'Cleaning asks nothing about the next system version.',
    verdict: 'fits',
    reason: 'no system upgrade in the change',
    source: CITED.practice,
  },
])
