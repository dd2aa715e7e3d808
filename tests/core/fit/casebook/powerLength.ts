import type { Case, Part } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, chassis, cpu, machine, supply } from './parts.ts'
import { CITED } from './sources.ts'

const b550 = board('B550')
const r5000 = cpu('Ryzen 5000 (Zen 3)', 'Ryzen 5')
const long = (lengthMm: number | undefined) => supply(`${lengthMm} mm`, { lengthMm })
const cardOf = (lengthMm: number | undefined) => card(`${lengthMm} mm`, { lengthMm })
const cage = (supplyRoomMm: number | undefined) => chassis(`cage ${supplyRoomMm}`, { supplyRoomMm })
/** Supply and card share 460 mm. */
const line = chassis('one line', { supplyAndCardMm: 460, cardRoomMm: 320 })

const into = (box: Case, ...add: readonly Part[]): Pick<Draft, 'has' | 'add' | 'source'> => ({
  has: machine(b550, r5000, box),
  add,
  source: CITED.supplyLength,
})
const inLine = (supplyMm: number | undefined, ...add: readonly Part[]) => ({
  has: machine(b550, r5000, line, supply('before', { lengthMm: supplyMm })),
  add,
  source: CITED.line,
})

export const powerLength = chapter('power', 'power', [
  {
    ...into(cage(160), long(159)),
    id: 'power-length-under',
    says: 'One millimetre is left to the drive cage.',
    verdict: 'fits',
    reason: '159 mm in 160 mm',
    values: { needMm: 159, roomMm: 160 },
  },
  {
    ...into(cage(160), long(160)),
    id: 'power-length-at',
    says: 'Exactly the free depth is enough.',
    verdict: 'fits',
    reason: '160 mm in 160 mm',
    values: { needMm: 160, roomMm: 160 },
  },
  {
    ...into(cage(160), long(161)),
    id: 'power-length-over',
    says: 'An ATX supply in an ATX case, one millimetre too long for the cage behind it.',
    tricky: true,
    verdict: 'does not fit',
    reason: '161 mm in 160 mm',
    values: { needMm: 161, roomMm: 160 },
  },
  {
    ...into(cage(160), long(undefined)),
    id: 'power-length-unknown',
    says: 'A supply of unknown length in front of a cage; 140 mm is the standard and not a promise.',
    tricky: true,
    verdict: "can't tell",
    reason: 'length of the supply not known, 160 mm free',
    needs: ['lengthMm'],
  },
  {
    ...into(cage(undefined), long(200)),
    id: 'power-length-no-cage-known',
    says: 'A case for which nobody names a depth is not asked for one.',
    verdict: 'fits',
    reason: '200 mm, no limit on record',
  },
  {
    ...into(cage(180), long(170)),
    id: 'power-length-tape',
    says: 'The sheet says 180 mm and the tape says 165, because the cage was moved.',
    tricky: true,
    claims: [{ key: 'supplyRoomMm', value: 165, source: 'measured' }],
    verdict: 'does not fit',
    reason: '170 mm in the measured 165 mm',
    values: { needMm: 170, roomMm: 165 },
  },
  {
    has: machine(b550, r5000, long(180)),
    add: [cage(170)],
    source: CITED.supplyLength,
    id: 'power-length-new-case',
    says: 'The supply stays and is too long for the new case.',
    verdict: 'does not fit',
    reason: '180 mm in 170 mm of the new case',
    values: { needMm: 180, roomMm: 170 },
  },
  {
    ...into(cage(110), supply('SFX', { form: 'SFX', lengthMm: 130 })),
    id: 'power-length-after-the-bracket',
    says: 'A bracket helps with the opening and not with the cage.',
    tricky: true,
    verdict: 'does not fit',
    reason: 'SFX behind an ATX opening with a bracket, but 130 mm in 110 mm',
    values: { needMm: 130, roomMm: 110 },
  },
  {
    ...inLine(160, cardOf(299)),
    id: 'power-line-under',
    says: 'Supply and card lie in one line and leave a millimetre.',
    verdict: 'fits',
    reason: '160 + 299 = 459 mm of 460 mm',
    values: { needMm: 459, roomMm: 460 },
  },
  {
    ...inLine(160, cardOf(300)),
    id: 'power-line-at',
    says: 'Supply and card fill the line.',
    verdict: 'fits',
    reason: '160 + 300 = 460 mm of 460 mm',
    values: { needMm: 460, roomMm: 460 },
  },
  {
    ...inLine(160, cardOf(301)),
    id: 'power-line-over',
    says: 'The card has its 320 mm by the sheet, and the supply takes one of them.',
    tricky: true,
    verdict: 'does not fit',
    reason: '160 + 301 = 461 mm of 460 mm; the card alone has 301 mm of 320 mm',
    values: { needMm: 461, roomMm: 460 },
  },
  {
    ...inLine(140, supply('longer', { lengthMm: 165 })),
    has: machine(b550, r5000, line, cardOf(300), supply('before', { lengthMm: 140 })),
    id: 'power-line-longer-supply',
    says: 'The card stays, and a longer supply leaves it too little.',
    tricky: true,
    verdict: 'does not fit',
    reason: '165 + 300 = 465 mm of 460 mm',
    values: { needMm: 465, roomMm: 460 },
  },
  {
    ...inLine(undefined, cardOf(240)),
    id: 'power-line-supply-unknown',
    says: 'Nobody knows how long the supply in the line is.',
    verdict: "can't tell",
    reason: 'length of the supply not known, 460 mm shared',
    needs: ['lengthMm'],
  },
  {
    ...inLine(160, cardOf(undefined)),
    id: 'power-line-card-unknown',
    says: 'Nobody knows how long the card in the line is.',
    verdict: "can't tell",
    reason: 'length of the card not known, 460 mm shared',
    needs: ['lengthMm'],
  },
  {
    ...inLine(180, cardOf(310), long(150)),
    id: 'power-line-shorter-supply-with-the-card',
    says: 'The long card comes with a shorter supply.',
    tricky: true,
    verdict: 'fits',
    reason: '150 + 310 = 460 mm of 460 mm; with the old supply 490 mm',
    values: { needMm: 460, roomMm: 460 },
  },
  {
    ...into(chassis('apart', { cardRoomMm: 320 }), cardOf(320), long(200)),
    id: 'power-line-not-in-line',
    says: 'In a case where they do not lie in line, a long supply takes nothing from the card.',
    verdict: 'fits',
    reason: 'no shared length; 320 mm in 320 mm',
    source: CITED.line,
  },
])
