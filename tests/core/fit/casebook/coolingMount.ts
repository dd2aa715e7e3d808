import type { Cooler, Part } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, coolerOf, cpu, kit, machine } from './parts.ts'
import { CITED } from './sources.ts'

const i5of10 = cpu('10th (Comet Lake)', 'i5', { limitPowerW: 134 })
const i5of12 = cpu('12th (Alder Lake)', 'i5', { limitPowerW: 117 })
const zen3 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const zen4 = cpu('Ryzen 7000 (Zen 4)', 'Ryzen 5')

/** `sockets` with a kit in the box, `kitSockets` with a kit that its maker sells. */
const mounts = (
  sockets: readonly string[] | undefined,
  kitSockets: readonly string[] = [],
  figures?: Partial<Cooler>,
) => coolerOf(`for ${sockets?.join(' ')}`, { sockets, kitSockets, ...figures })

const lga1200 = machine(board('H410'), i5of10)
const lga1700 = machine(board('H610'), i5of12)
const am4 = machine(board('B550'), zen3)
const am5 = machine(board('B650'), zen4)

const gets = (has: readonly Part[], ...add: readonly Part[]): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has,
  add,
  source: CITED.mounts,
})

/** Board and processor change from LGA1200 to LGA1700, and the cooler stays unless another comes along. */
const swapTo1700 = (stays: Cooler, ...more: readonly Part[]) =>
  gets(machine(board('H410'), i5of10, stays), board('H610'), i5of12, ...more)

/** From AM4 to AM5, which takes other memory too. */
const swapToAm5 = (stays: Cooler, ...more: readonly Part[]) => ({
  ...gets(machine(board('B550'), zen3, stays), board('B650'), zen4, kit('DDR5', 2, 16, 5200), ...more),
  out: ['MEM DDR4 2x8 2133'],
})

export const coolingMount = chapter('cooling', 'cooling', [
  {
    ...gets(lga1700, mounts(['LGA1200', 'LGA1700'])),
    id: 'cooling-mount-in-the-box',
    says: 'The kit for the socket is in the box.',
    verdict: 'fits',
    reason: 'LGA1700 listed',
  },
  {
    ...gets(lga1700, mounts(['LGA1150', 'LGA1151', 'LGA1200'], ['LGA1700'])),
    id: 'cooling-mount-kit-1200-on-1700',
    says: 'A cooler made for LGA1200 takes a kit of its maker on LGA1700.',
    tricky: true,
    verdict: 'fits after work',
    reason: 'holes 75 x 75 mm against 78 x 78 mm; kit for LGA1700 to be had',
  },
  {
    ...gets(lga1700, mounts(['LGA1150', 'LGA1151', 'LGA1200'])),
    id: 'cooling-mount-no-kit-1200-on-1700',
    says: 'Three millimetres between the holes and no kit are the end of it.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'holes 75 x 75 mm against 78 x 78 mm; no kit for LGA1700',
  },
  {
    ...gets(lga1200, mounts(['LGA1700', 'LGA1851'])),
    id: 'cooling-mount-no-kit-1700-on-1200',
    says: 'A newer cooler does not go back to the older socket without a kit.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'holes 78 x 78 mm against 75 x 75 mm; no kit for LGA1200',
  },
  {
    ...gets(lga1200, mounts(['LGA1700', 'LGA1851'], ['LGA1200'])),
    id: 'cooling-mount-kit-1700-on-1200',
    says: 'With the kit of its maker it goes back.',
    verdict: 'fits after work',
    reason: 'kit for LGA1200 to be had',
  },
  {
    ...gets(am5, mounts(['AM4', 'AM5'])),
    id: 'cooling-mount-am5-listed',
    says: 'A cooler that lists AM5 uses the plate that is there.',
    verdict: 'fits',
    reason: 'AM5 listed',
  },
  {
    ...gets(am5, mounts(['AM4'])),
    id: 'cooling-mount-am4-plate-on-am5',
    says: 'The holes are those of AM4, but a cooler with a back plate of its own has no way in.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'AM5 not listed; its back plate is fixed',
  },
  {
    ...gets(am5, mounts(['AM4'], ['AM5'])),
    id: 'cooling-mount-am4-kit-on-am5',
    says: 'The maker sells screws for the fixed back plate of AM5.',
    verdict: 'fits after work',
    reason: 'kit for AM5 to be had',
  },
  {
    ...gets(am4, mounts(['LGA1200', 'LGA1700'])),
    id: 'cooling-mount-other-maker',
    says: 'A cooler for sockets of the other maker only.',
    verdict: 'does not fit',
    reason: 'AM4 not listed',
  },
  {
    ...gets(am4, mounts(undefined)),
    id: 'cooling-mount-unknown',
    says: 'Nobody wrote down for which sockets the cooler is.',
    verdict: "can't tell",
    reason: 'sockets of the cooler not known',
    needs: ['sockets'],
  },
  {
    ...gets(am4, mounts(['LGA1700'], ['AM4'], { heightMm: 171 })),
    id: 'cooling-mount-kit-and-too-high',
    says: 'A kit settles the holes and not the height.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'kit for AM4 to be had; 171 mm in 170 mm',
    values: { coolerMm: 171, roomMm: 170 },
  },
  {
    ...gets(am4, mounts(['LGA1700'], ['AM4'], { ratedW: 65 })),
    id: 'cooling-mount-kit-and-weak',
    says: 'A kit is needed, and the cooler is weak besides: the work is the worse of the two.',
    verdict: 'fits after work',
    reason: 'kit for AM4 to be had; rated 65 W against 88 W',
    values: { ratedW: 65 },
  },
  {
    ...gets(am4, mounts(['LGA1700'], [], { ratedW: undefined })),
    id: 'cooling-mount-no-kit-and-rating-unknown',
    says: 'What does not go on is out, whatever else is not known.',
    verdict: 'does not fit',
    reason: 'AM4 not listed, no kit',
  },
  {
    ...swapTo1700(mounts(['LGA1200'], ['LGA1700'])),
    id: 'cooling-swap-1700-kit',
    says: 'The cooler stays on a board with another socket and takes a kit.',
    verdict: 'fits after work',
    reason: '75 x 75 mm to 78 x 78 mm; kit for LGA1700 to be had',
  },
  {
    ...swapTo1700(mounts(['LGA1200'])),
    id: 'cooling-swap-1700-no-kit',
    says: 'The board can change, and the old cooler cannot come along: a new one has to.',
    tricky: true,
    verdict: 'fits after work',
    reason: '75 x 75 mm to 78 x 78 mm, no kit: another cooler',
  },
  {
    ...swapTo1700(mounts(['LGA1200', 'LGA1700'])),
    id: 'cooling-swap-1700-listed',
    says: 'The cooler had the kit for both sockets in the box.',
    verdict: 'fits',
    reason: 'LGA1700 listed; 117 W after 134 W',
  },
  {
    ...swapTo1700(mounts(['LGA1200']), mounts(['LGA1700'])),
    id: 'cooling-swap-1700-with-cooler',
    says: 'The right cooler comes with the board.',
    verdict: 'fits',
    reason: 'LGA1700 listed by the new cooler; 260 W against 117 W',
    values: { ratedW: 260 },
  },
  {
    ...swapTo1700(mounts(['LGA1200']), mounts(['AM4', 'AM5'])),
    id: 'cooling-swap-1700-with-wrong-cooler',
    says: 'A new cooler comes with the board and is for another socket.',
    verdict: 'does not fit',
    reason: 'LGA1700 not listed by the new cooler, no kit',
  },
  {
    ...swapTo1700(mounts(undefined)),
    id: 'cooling-swap-1700-unknown',
    says: 'Nobody knows what the fitted cooler goes on besides the board it is on.',
    verdict: "can't tell",
    reason: 'sockets of the fitted cooler not known',
    needs: ['sockets'],
  },
  {
    ...swapToAm5(mounts(['AM4', 'AM5'])),
    id: 'cooling-swap-am5-listed',
    says: 'From AM4 to AM5 a cooler that lists both stays.',
    verdict: 'fits',
    reason: 'AM5 listed; 88 W as before',
  },
  {
    ...swapToAm5(mounts(['AM4'])),
    id: 'cooling-swap-am5-own-plate',
    says: 'Not every AM4 cooler comes along to AM5: this one needs the plate that it brought.',
    tricky: true,
    verdict: 'fits after work',
    reason: 'AM5 not listed, no kit: another cooler',
  },
  {
    ...swapToAm5(mounts(['AM4'], ['AM5'])),
    id: 'cooling-swap-am5-kit',
    says: 'The maker has a kit for AM5.',
    verdict: 'fits after work',
    reason: 'kit for AM5 to be had',
  },
  {
    ...gets(machine(board('H410'), i5of10, mounts(['LGA1200'])), board('B560')),
    id: 'cooling-board-same-socket',
    says: 'Another board with the same socket takes the same cooler.',
    verdict: 'fits',
    reason: 'LGA1200 to LGA1200',
  },
  {
    ...gets(machine(board('B550'), zen3, mounts(undefined)), cpu('Ryzen 5000 (Zen 3)', 'Ryzen 7')),
    id: 'cooling-processor-same-socket',
    says: 'A processor of the same socket and draw does not touch the mount, so nobody asks about it.',
    tricky: true,
    verdict: 'fits',
    reason: '88 W as before, same board, same cooler',
    source: CITED.practice,
  },
])
