import type { Part } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { coolerOf, cpu, kit, without } from './parts.ts'
import { CITED } from './sources.ts'
import { i5of6, KNOWN, whole, wholeMachine, zen2, zen3, zen4 } from './swapParts.ts'

const am4 = (...given: readonly Part[]) => wholeMachine(whole('B550'), zen3, ...given)
const D5at5200 = kit('DDR5', 2, 16, 5200, { heightMm: 31.25, ranks: 1 })

const from = (
  has: readonly Part[],
  ...add: readonly Part[]
): Pick<Draft, 'has' | 'claims' | 'add' | 'source'> => ({ has, claims: KNOWN, add, source: CITED.am5 })

/** To AM5: board, processor and DDR5 come, the DDR4 goes. */
const toAm5 = (
  has: readonly Part[],
  ...more: readonly Part[]
): ReturnType<typeof from> & Pick<Draft, 'out'> => ({
  ...from(has, whole('B650'), zen4, D5at5200, ...more),
  out: ['MEM DDR4 2x8 2133'],
})

/** Board and processor as one change on AMD sockets, and the picture afterwards. */
export const swapAmd = chapter('platform swap', 'whole', [
  {
    ...from(am4(), whole('B650'), zen4),
    id: 'swap-am5-ddr4-stays',
    says: 'AM5 takes DDR5 only, so the DDR4 that should stay ends it.',
    verdict: 'does not fit',
    reason: 'DDR4 modules, DDR5 board',
    source: CITED.jedecKeys,
  },
  {
    ...toAm5(am4()),
    id: 'swap-am5-ddr5-comes',
    says: 'With DDR5 in the change the step to AM5 is whole; card, supply, cooler, drive and case stay.',
    verdict: 'fits',
    reason: 'DDR5-5200 at both ends; cooler lists AM5; gen 3 x16 card; 88 + 150 + 50 = 288 W of 672 W',
    values: { runsMts: 5200, totalGB: 32 },
  },
  {
    ...toAm5(am4(coolerOf('own plate', { sockets: ['AM4'] }))),
    id: 'swap-am5-cooler-own-plate',
    says: 'The holes are the same, and the cooler needs the plate that AM5 does not give up.',
    tricky: true,
    verdict: 'fits after work',
    reason: 'AM5 not listed, no kit: another cooler',
    source: CITED.mounts,
  },
  {
    ...toAm5(am4(coolerOf('hooks', { sockets: ['AM4', 'AM5'] }))),
    id: 'swap-am5-cooler-hooks',
    says: 'A cooler that hooks into the bracket comes along.',
    verdict: 'fits',
    reason: 'AM5 listed; 260 W against 88 W',
    source: CITED.mounts,
  },
  {
    ...from(wholeMachine(whole('B450'), cpu('Ryzen 2000 (Zen+)', 'Ryzen 5')), whole('B550')),
    id: 'swap-b550-2000-stays',
    says: 'The newer AM4 board refuses the older AM4 processor that stays.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'Ryzen 2000 on B550 is not supported',
    source: CITED.am4,
  },
  {
    ...from(wholeMachine(whole('B350'), cpu('Ryzen 1000 (Zen)', 'Ryzen 5')), whole('B550'), zen2),
    id: 'swap-b350-b550-3000',
    says: 'Within AM4 board and processor change and the rest stays.',
    verdict: 'fits',
    reason: 'Ryzen 3000 native on B550; DDR4-2133; cooler lists AM4; 88 W as before',
    source: CITED.am4,
  },
  {
    ...from(wholeMachine(whole('B350'), cpu('Ryzen 1000 (Zen)', 'Ryzen 5')), whole('B550'), zen3),
    id: 'swap-b350-b550-5000-unread',
    says: 'A B550 board from the shelf may be older than the Ryzen 5000, and nobody read its firmware.',
    tricky: true,
    verdict: "can't tell",
    reason: 'boards sold before November 2020 need an update; both versions unknown',
    needs: ['firmware', 'firmwareNeeded'],
    source: CITED.am4,
  },
  {
    ...from(without('card', wholeMachine(whole('Z170'), i5of6)), whole('B550'), zen2),
    id: 'swap-no-picture-am4',
    says: 'The old processor made the picture itself; the new one cannot, and there is no card.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'no graphics unit and no card after the change',
    source: CITED.unit,
  },
  {
    ...from(wholeMachine(whole('Z170'), i5of6), whole('B550'), zen2),
    id: 'swap-no-unit-beside-card',
    says: 'With a card in the machine a processor without graphics unit is enough.',
    verdict: 'fits',
    reason: 'the card that stays makes the picture',
    source: CITED.unit,
  },
  {
    ...from(
      without('card', wholeMachine(whole('Z170'), i5of6)),
      whole('B460'),
      cpu('10th (Comet Lake)', 'i5', { id: 'CPU 10th i5F', integratedGraphics: false, limitPowerW: 134 }),
    ),
    id: 'swap-no-picture-f-model',
    says: 'An F model saves a few coins and leaves the machine without a picture.',
    verdict: 'does not fit',
    reason: 'no graphics unit and no card after the change',
    source: CITED.unit,
  },
])
