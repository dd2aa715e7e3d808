import type { Supply } from '../../../../src/core/part.ts'
import { chapter, type Draft } from './compose.ts'
import { board, card, cpu, labelYear, machine, plugs, supply } from './parts.ts'
import { CITED } from './sources.ts'

// The day of judging is 2026-11-25. 500 W on 12 V, a processor of 125 W and 50 W for the rest.

const five = supply('500', { ratedW: 550, rail12VW: 500, plugs: plugs(0, 2, 0) })

const aged = (
  year: number | undefined,
  boardPowerW: number,
  source: Supply = five,
): Pick<Draft, 'has' | 'claims' | 'add' | 'source'> => ({
  has: machine(board('B450'), cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5', { limitPowerW: 125 }), source),
  claims: year === undefined ? [] : [labelYear(year)],
  add: [card(`${boardPowerW} W`, { boardPowerW })],
  source: CITED.supplyAge,
})

export const powerAge = chapter('power', 'power', [
  {
    ...aged(2026, 225),
    id: 'power-age-this-year',
    says: 'A supply of this year counts with 80 %.',
    verdict: 'fits',
    reason: '125 + 225 + 50 = 400 W of 0.80 x 500 = 400 W',
    values: { loadW: 400, usableW: 400 },
  },
  {
    ...aged(2022, 225),
    id: 'power-age-4-years',
    says: 'At four years nothing is taken off.',
    verdict: 'fits',
    reason: '400 W of 0.80 x 500 = 400 W',
    values: { loadW: 400, usableW: 400 },
  },
  {
    ...aged(2021, 225),
    id: 'power-age-5-years',
    says: 'Up to five years means that the fifth still counts in full.',
    tricky: true,
    verdict: 'fits',
    reason: '2026 - 2021 = 5 years; 400 W of 0.80 x 500 = 400 W',
    values: { loadW: 400, usableW: 400 },
  },
  {
    ...aged(2020, 225),
    id: 'power-age-6-years-over',
    says: 'With the sixth year the same supply is 10 W short.',
    tricky: true,
    verdict: 'fits after work',
    reason: '2026 - 2020 = 6 years, 78 %; 400 W of 0.78 x 500 = 390 W',
    values: { loadW: 400, usableW: 390 },
  },
  {
    ...aged(2020, 215),
    id: 'power-age-6-years-at',
    says: 'A card of 215 W takes all that a six-year-old supply has left.',
    verdict: 'fits',
    reason: '125 + 215 + 50 = 390 W of 0.78 x 500 = 390 W',
    values: { loadW: 390, usableW: 390 },
  },
  {
    ...aged(2019, 204),
    id: 'power-age-7-years-under',
    says: 'Seven years leave 76 %, and one watt of it is free.',
    verdict: 'fits',
    reason: '125 + 204 + 50 = 379 W of 0.76 x 500 = 380 W',
    values: { loadW: 379, usableW: 380 },
  },
  {
    ...aged(2019, 205),
    id: 'power-age-7-years-at',
    says: 'Seven years leave 76 %, all of it used.',
    verdict: 'fits',
    reason: '125 + 205 + 50 = 380 W of 0.76 x 500 = 380 W',
    values: { loadW: 380, usableW: 380 },
  },
  {
    ...aged(2019, 206),
    id: 'power-age-7-years-over',
    says: 'One watt over what a seven-year-old supply has left.',
    verdict: 'fits after work',
    reason: '125 + 206 + 50 = 381 W of 0.76 x 500 = 380 W',
    values: { loadW: 381, usableW: 380 },
  },
  {
    ...aged(2015, 166),
    id: 'power-age-11-years-over',
    says: 'A 550 W supply of 2015 is too old for a card of 166 W.',
    tricky: true,
    verdict: 'fits after work',
    reason: '11 years, 80 - 6 x 2 = 68 %; 125 + 166 + 50 = 341 W of 0.68 x 500 = 340 W',
    values: { loadW: 341, usableW: 340 },
  },
  {
    ...aged(undefined, 225),
    id: 'power-age-unknown',
    says: 'A year that nobody wrote down takes nothing off.',
    verdict: 'fits',
    reason: '400 W of 0.80 x 500 = 400 W',
    values: { loadW: 400, usableW: 400 },
  },
  {
    ...aged(2015, 225),
    id: 'power-age-new-supply',
    says: 'The year was that of the old supply; the new one starts at 80 %.',
    tricky: true,
    add: [card('225 W', { boardPowerW: 225 }), { ...five, id: 'SUPPLY new 500' }],
    verdict: 'fits',
    reason: '125 + 225 + 50 = 400 W of 0.80 x 500 = 400 W; at 68 % it would be 340 W',
    values: { loadW: 400, usableW: 400 },
  },
  {
    ...aged(2019, 205),
    id: 'power-age-stronger-processor',
    says: 'A card that has run well for years, an old supply and a stronger processor.',
    has: machine(
      board('B450'),
      cpu('Ryzen 3000 (Zen 2)', 'Ryzen 5', { limitPowerW: 88 }),
      five,
      card('old 205', { boardPowerW: 205 }),
    ),
    add: [cpu('Ryzen 3000 (Zen 2)', 'Ryzen 7', { limitPowerW: 142 })],
    verdict: 'fits after work',
    reason: '142 + 205 + 50 = 397 W of 0.76 x 500 = 380 W; a new supply would have 400 W',
    values: { loadW: 397, usableW: 380 },
    tricky: true,
  },
])
