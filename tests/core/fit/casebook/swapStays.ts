import type { Board, Part } from '../../../../src/core/part.ts'
import { FRONT } from './caseParts.ts'
import { chapter, type Draft } from './compose.ts'
import { card, cpu } from './parts.ts'
import { CITED } from './sources.ts'
import { large, m2Sata, pcieDrive, smalls, socket } from './storageParts.ts'
import { D5, i5of6, i5of10, i5of12, KNOWN, whole, wholeCase, wholeMachine, zen2 } from './swapParts.ts'

/** Z170 to B460 with a 10th generation processor, where something else stays than usual. */
const staying = (
  stays: readonly Part[],
  figures?: Partial<Board>,
): Pick<Draft, 'has' | 'claims' | 'add' | 'source'> => ({
  has: wholeMachine(whole('Z170'), i5of6, ...stays),
  claims: KNOWN,
  add: [whole('B460', figures), i5of10],
  source: CITED.wholeSwap,
})
const gen4x8 = card('gen 4 x8', { pcieGen: 4, pcieLanes: 8, videoSockets: ['DisplayPort'] })
const gen4x16 = card('gen 4 x16', { pcieGen: 4, pcieLanes: 16, videoSockets: ['DisplayPort'] })

/** Card link, drives, case and front panel on the new board. */
export const swapStays = chapter('platform swap', 'whole', [
  {
    has: wholeMachine(whole('B550'), zen2, gen4x8),
    claims: KNOWN,
    add: [whole('B460'), i5of10],
    source: CITED.link,
    id: 'swap-card-link-halved',
    says: 'The new processor may be faster, and the card with eight lanes loses half of its link.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'gen 3 x8 = 7.877 GB/s of gen 4 x8 = 15.754 GB/s, which it had on B550',
    values: { linkGBps: 7.877, cardGBps: 15.754 },
  },
  {
    has: wholeMachine(whole('Z170'), i5of6, gen4x8),
    claims: KNOWN,
    add: [whole('H610'), i5of12],
    source: CITED.link,
    id: 'swap-card-link-restored',
    says: 'On the newer board the card with eight lanes gets its whole link for the first time.',
    verdict: 'fits',
    reason: 'gen 4 x8 = 15.754 GB/s at card, board and processor; gen 3 before',
    values: { linkGBps: 15.754, cardGBps: 15.754 },
  },
  {
    ...staying([gen4x16]),
    id: 'swap-card-link-as-before',
    says: 'The gen 4 card stays on gen 3: no worse than before, and still below its rating.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'gen 3 x16 = 15.754 GB/s of gen 4 x16 = 31.508 GB/s',
    values: { linkGBps: 15.754, cardGBps: 31.508 },
    source: CITED.link,
  },
  {
    has: wholeMachine(whole('B550'), zen2, gen4x16),
    claims: KNOWN,
    add: [whole('B850'), cpu('Ryzen 8000G (Phoenix)', '8600G'), D5],
    out: ['MEM DDR4 2x8 2133'],
    source: CITED.link,
    id: 'swap-card-link-x8-processor',
    says: 'The newest board has sixteen lanes for the card, and this processor gives it eight.',
    tricky: true,
    verdict: 'fits slower',
    reason: 'gen 4 x8 = 15.754 GB/s of gen 4 x16 = 31.508 GB/s, which it had before',
    values: { linkGBps: 15.754, cardGBps: 31.508 },
  },
  {
    ...staying([pcieDrive('old', { pcieGen: 4 })]),
    id: 'swap-drive-slower',
    says: 'The gen 4 drive finds a gen 3 socket.',
    verdict: 'fits slower',
    reason: 'gen 3 x4 = 3.938 GB/s of gen 4 x4 = 7.877 GB/s',
    values: { driveGBps: 7.877 },
    source: CITED.link,
  },
  {
    ...staying([pcieDrive('old'), pcieDrive('older')], { m2Sockets: [socket('M2_1')] }),
    id: 'swap-one-socket-two-drives',
    says: 'The cheaper board has one M.2 socket for two drives.',
    verdict: 'does not fit',
    reason: '2 M.2 drives, 1 socket',
    source: CITED.m2List,
  },
  {
    ...staying([m2Sata('old')], { m2Sockets: [socket('M2_1'), socket('M2_2')] }),
    id: 'swap-m2-sata-stranded',
    says: 'Two M.2 sockets are free, and neither is wired for the M.2 SATA drive that holds the system.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'both sockets are wired for PCIe only',
    source: CITED.m2Wiring,
  },
  {
    ...staying([pcieDrive('old', { lengthMm: 110 })]),
    id: 'swap-drive-too-long',
    says: 'The 22110 drive that stays has no screw on the new board.',
    verdict: 'does not fit',
    reason: '110 mm; screws at 42, 60, 80 mm',
    source: CITED.m2Sizes,
  },
  {
    ...staying([pcieDrive('old')], { m2Sockets: undefined }),
    id: 'swap-sockets-unknown',
    says: 'Nobody looked up the M.2 sockets of the new board.',
    verdict: "can't tell",
    reason: 'M.2 sockets of the new board not known',
    needs: ['m2Sockets'],
    source: CITED.m2List,
  },
  {
    ...staying([pcieDrive('old'), ...smalls(2), large('large 1'), large('large 2')], {
      m2Sockets: [socket('M2_1', { sataPortsOff: ['SATA_3', 'SATA_4'] })],
    }),
    id: 'swap-ports-turned-off',
    says: 'Four ports for four SATA drives, and the M.2 drive turns two of them off.',
    tricky: true,
    verdict: 'does not fit',
    reason: '4 ports less 2 turned off leave 2 for 4 drives',
    source: CITED.m2Sharing,
  },
  {
    ...staying([pcieDrive('old'), ...smalls(2), large('large 1'), large('large 2')]),
    id: 'swap-four-sata-drives',
    says: 'Four ports for four SATA drives, and the M.2 drive turns none off.',
    verdict: 'fits',
    reason: '4 ports for 4 drives',
    source: CITED.sataPort,
  },
  {
    ...staying([wholeCase('old', { frontPlugs: [...FRONT, 'USB-C (key A)'] })]),
    id: 'swap-usb-c-dead',
    says: 'The new board lacks the header for the USB-C port in front.',
    verdict: 'fits slower',
    reason: 'USB-C (key A) plug without header',
    source: CITED.frontPanel,
  },
  {
    ...staying([], { frontHeaders: undefined }),
    id: 'swap-headers-unknown',
    says: 'Nobody looked up the headers of the new board.',
    verdict: "can't tell",
    reason: 'front panel headers of the new board not known',
    needs: ['frontHeaders'],
    source: CITED.frontPanel,
  },
  {
    ...staying([wholeCase('old', { boardForms: ['microATX', 'Mini-ITX'] })], { form: 'ATX' }),
    id: 'swap-atx-board-small-case',
    says: 'The new board is larger than the case that stays.',
    verdict: 'does not fit',
    reason: 'ATX board, the case takes microATX',
    source: CITED.boardHoles,
  },
  {
    ...staying([wholeCase('brand', { boardForms: ['microATX'] })]),
    claims: [...KNOWN, { key: 'brandCase', value: 'yes', source: 'measured', pinned: true }],
    id: 'swap-brand-case',
    says: 'The size is right, and a brand-name case may have posts and a front plug of its own.',
    tricky: true,
    verdict: "can't tell",
    reason: 'posts, back panel and front plug of the case are not known to be standard',
    needs: ['caseBoardMounting'],
    source: CITED.office,
  },
  {
    ...staying([wholeCase('brand', { boardForms: ['microATX'] })]),
    claims: [
      ...KNOWN,
      { key: 'brandCase', value: 'yes', source: 'measured', pinned: true },
      { key: 'caseBoardMounting', value: 'standard', source: 'measured', pinned: true },
      // Added when the chapter was first held against the rules: the sentence says plugs, and this is their limit.
      { key: 'supplyBoardPlug', value: 'ATX 24-pin', source: 'measured', pinned: true },
    ],
    id: 'swap-brand-case-standard',
    says: 'The builder looked: posts and plugs of this brand-name case are the usual ones.',
    verdict: 'fits',
    reason: 'standard posts, microATX listed',
    source: CITED.office,
  },
])
