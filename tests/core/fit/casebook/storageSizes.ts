import { chapter, type Draft } from './compose.ts'
import { CITED } from './sources.ts'
import { intoSockets, m2Sata, pcieDrive, socket } from './storageParts.ts'

const one = [socket('M2_1')]

const into = (...given: Parameters<typeof intoSockets>): Pick<Draft, 'has' | 'add' | 'source'> => ({
  ...intoSockets(...given),
  source: CITED.m2Sizes,
})

export const storageSizes = chapter('storage', 'storage', [
  {
    ...into(one, pcieDrive('long', { lengthMm: 110 })),
    id: 'storage-m2-110-in-80',
    says: 'A 22110 drive hangs over a board that has screws up to 80 mm.',
    verdict: 'does not fit',
    reason: '110 mm; screws at 42, 60, 80 mm',
    values: { lengthMm: 110 },
  },
  {
    ...into([socket('M2_1', { lengthsMm: [80, 110] })], pcieDrive('long', { lengthMm: 110 })),
    id: 'storage-m2-110-listed',
    says: 'A 22110 drive fits where the manual lists 110 mm.',
    verdict: 'fits',
    reason: '110 mm listed',
  },
  {
    ...into([socket('M2_1', { lengthsMm: [30, 42] })], pcieDrive('new')),
    id: 'storage-m2-80-in-42',
    says: 'The usual 2280 drive is too long for a socket with screws up to 42 mm.',
    verdict: 'does not fit',
    reason: '80 mm; screws at 30, 42 mm',
    values: { lengthMm: 80 },
  },
  {
    ...into(one, pcieDrive('short', { lengthMm: 30 })),
    id: 'storage-m2-30-in-80',
    says: 'Shorter is not easier: no screw holds a 2230 drive on this board.',
    tricky: true,
    verdict: 'does not fit',
    reason: '30 mm; screws at 42, 60, 80 mm',
    values: { lengthMm: 30 },
  },
  {
    ...into([socket('M2_1', { lengthsMm: [30, 42, 60, 80] })], pcieDrive('short', { lengthMm: 30 })),
    id: 'storage-m2-30-listed',
    says: 'A 2230 drive fits where the manual lists 30 mm.',
    verdict: 'fits',
    reason: '30 mm listed',
  },
  {
    ...into(
      [socket('M2_1', { lengthsMm: [80, 110] }), socket('M2_2', { lengthsMm: [80] })],
      pcieDrive('long', { lengthMm: 110 }),
      [pcieDrive('old')],
    ),
    id: 'storage-m2-long-keeps-its-socket',
    says: 'The fitted 2280 drive has a screw in either socket and leaves the long one free.',
    tricky: true,
    verdict: 'fits',
    reason: 'old drive in M2_2, 110 mm in M2_1',
  },
  {
    ...into(one, pcieDrive('new', { m2Key: undefined })),
    id: 'storage-m2-key-unknown',
    says: 'A drive with unknown notches is not promised.',
    verdict: "can't tell",
    reason: 'key of the drive not known',
    needs: ['m2Key'],
    source: CITED.m2Keys,
  },
  {
    ...into(one, pcieDrive('new', { lengthMm: undefined })),
    id: 'storage-m2-length-unknown',
    says: 'A drive of unknown length is not promised.',
    verdict: "can't tell",
    reason: 'length of the drive not known',
    needs: ['lengthMm'],
  },
  {
    ...into(one, m2Sata('new', { interface: undefined })),
    id: 'storage-m2-interface-unknown',
    says: 'M.2 is a shape: whether the drive speaks SATA or PCIe decides here.',
    tricky: true,
    verdict: "can't tell",
    reason: 'the socket is wired for PCIe only, interface of the drive not known',
    needs: ['interface'],
    source: CITED.m2Wiring,
  },
  {
    ...into(one, pcieDrive('new', { form: undefined })),
    id: 'storage-form-unknown',
    says: 'A drive of unknown form is not promised.',
    verdict: "can't tell",
    reason: 'form of the drive not known',
    needs: ['form'],
    source: CITED.practice,
  },
])
