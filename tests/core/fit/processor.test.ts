import { expect, test } from 'vitest'
import { board, card, limits, machine, processor, says } from './bench.ts'

const next = { ...processor, id: 'CPU-NEW', name: 'New processor', generation: '11th (Rocket Lake)' }

// Intel product pages: 10th and 11th generation are LGA1200, 12th is LGA1700.
test.each([
  { need: 'LGA1200', have: 'LGA1200', gives: 'fits', why: 'equal' },
  { need: 'lga 1200', have: 'LGA1200', gives: 'fits', why: 'equal but for the writing' },
  { need: 'LGA1700', have: 'LGA1200', gives: 'does not fit', why: 'another socket' },
  { need: 'LGA120', have: 'LGA1200', gives: 'does not fit', why: 'one figure short' },
])('socket $need into $have: $why', ({ need, have, gives }) => {
  const f = says('processor.socket', { add: [{ ...next, socket: need }], limits: limits({ socket: have }) })
  expect(f).toMatchObject({
    verdict: gives,
    partId: 'CPU-NEW',
    values: { needSocket: need, haveSocket: have },
  })
})

// Intel's H410/B460 statement: 10th native, 11th not supported; H470/Z490: 11th after a firmware update.
// AM4 300 series with Ryzen 3000/5000: board by board (AMD chart of 2020).
test.each([
  { support: 'native', gives: 'fits' },
  { support: 'firmware update', gives: 'fits' },
  { support: 'board by board', gives: "can't tell" },
  { support: 'not supported', gives: 'does not fit' },
] as const)('a chipset that says "$support" and a silent board list give $gives', ({ support, gives }) => {
  const of = limits({ generationSupport: support }, ['firmwareNeeded'])
  expect(says('processor.generation', { add: [next], limits: of })).toMatchObject({ verdict: gives })
})

test('"board by board" says what to check', () => {
  const of = limits({ generationSupport: 'board by board', chipset: 'A320' }, ['firmwareNeeded'])
  expect(says('processor.generation', { add: [next], limits: of })?.missing).toEqual([
    {
      limit: 'generationSupport',
      doubt: "11th (Rocket Lake) on A320: the board maker's own list decides",
    },
  ])
})

// Intel statement quoted with the H410/B460 exclusion: later board versions of those names do take 11th generation.
test.each(['board by board', 'not supported'] as const)(
  'the board maker’s own list outranks "%s"',
  (support) => {
    const of = limits({ generationSupport: support, firmwareNeeded: '1.20' })
    expect(says('processor.generation', { add: [next], limits: of })).toMatchObject({ verdict: 'fits' })
  },
)

test('what runs in the same board today is no question, however the generation is written', () => {
  const of = limits({ generationSupport: 'board by board' }, ['firmwareNeeded'])
  const add = [{ ...next, generation: '10th' }]
  expect(says('processor.generation', { add, limits: of })).toMatchObject({ verdict: 'fits' })
  const onNewBoard = [...add, { ...board, id: 'BRD-NEW' }]
  expect(says('processor.generation', { add: onNewBoard, limits: of })).toMatchObject({
    verdict: "can't tell",
  })
})

test('an unknown generation or support is named', () => {
  expect(says('processor.generation', { add: [{ ...next, generation: undefined }] })).toMatchObject({
    missing: [{ spec: 'generation', partId: 'CPU-NEW' }],
  })
  expect(
    says('processor.generation', { add: [next], limits: limits({}, ['generationSupport']) }),
  ).toMatchObject({
    missing: [{ limit: 'generationSupport' }],
  })
})

test('the generation is not discussed where the socket has said no', () => {
  const of = limits({ generationSupport: 'not supported' }, ['firmwareNeeded'])
  expect(says('processor.generation', { add: [{ ...next, socket: 'LGA1700' }], limits: of })).toBeUndefined()
})

// Components compare as numbers (common practice of board makers' lists): 1.60 is newer than 1.20, F13 than F4.
test.each([
  { have: '1.10', need: '1.20', gives: 'fits after work', why: 'just under' },
  { have: '1.20', need: '1.20', gives: 'fits', why: 'at' },
  { have: '1.21', need: '1.20', gives: 'fits', why: 'just over' },
  { have: 'F4', need: 'F13', gives: 'fits after work', why: 'numbers, not letters' },
  { have: 'F4', need: '1.20', gives: "can't tell", why: 'two ways of writing' },
])('firmware $have for $need: $gives ($why)', ({ have, need, gives }) => {
  const of = limits({ generationSupport: 'firmware update', firmware: have, firmwareNeeded: need })
  expect(says('processor.firmware', { add: [next], limits: of })).toMatchObject({ verdict: gives })
})

test('older firmware asks for the update and for its cautions', () => {
  const of = limits({ firmware: '1.10', firmwareNeeded: '1.20' })
  expect(says('processor.firmware', { add: [next], limits: of })).toMatchObject({
    needs: [{ work: 'firmware update' }],
    cautions: ['backup', 'recovery-key', 'no-power-loss', 'one-way'],
  })
  const newer = limits({ firmware: '1.30', firmwareNeeded: '1.20' })
  expect(says('processor.firmware', { add: [next], limits: newer })).toMatchObject({
    needs: [],
    cautions: [],
  })
})

test('an update of unknown extent cannot be promised', () => {
  const of = limits({ generationSupport: 'firmware update' }, ['firmware', 'firmwareNeeded'])
  expect(says('processor.firmware', { add: [next], limits: of })).toMatchObject({
    verdict: "can't tell",
    missing: [{ limit: 'firmware' }, { limit: 'firmwareNeeded' }],
  })
})

test('firmware is silent for a native generation that the board’s list does not name, and for what runs today', () => {
  expect(
    says('processor.firmware', { add: [next], limits: limits({}, ['firmwareNeeded', 'firmware']) }),
  ).toBeUndefined()
  const of = limits({ generationSupport: 'firmware update' }, ['firmware', 'firmwareNeeded'])
  expect(
    says('processor.firmware', { add: [{ ...next, generation: processor.generation }], limits: of }),
  ).toBeUndefined()
})

// Intel product pages: i5-12400 takes 117 W at turbo, against an invented board figure.
test.each([
  { board: 116, gives: 'fits slower' },
  { board: 117, gives: 'fits' },
  { board: 118, gives: 'fits' },
])('a limit of 117 W on a board that feeds $board W: $gives', ({ board: processorPowerW, gives }) => {
  const of = limits({ processorPowerW })
  const f = says('processor.boardPower', { add: [{ ...next, limitPowerW: 117 }], limits: of })
  expect(f).toMatchObject({
    verdict: gives,
    values: { processorLimitW: 117, boardProcessorW: processorPowerW },
  })
})

// Intel product pages: models ending in F have no graphics unit.
test('without a card the processor must draw the picture itself', () => {
  const out = [card.id]
  expect(says('processor.picture', { out })).toMatchObject({ verdict: 'does not fit' })
  const before = { ...machine, processor: { ...processor, integratedGraphics: true } }
  expect(says('processor.picture', { out, before })).toMatchObject({ verdict: 'fits' })
  const unknown = { ...machine, processor: { ...processor, integratedGraphics: undefined } }
  expect(says('processor.picture', { out, before: unknown })).toMatchObject({
    verdict: "can't tell",
    missing: [{ spec: 'integratedGraphics' }],
  })
  expect(says('processor.picture', { add: [next] })).toBeUndefined()
})

test.each([
  'processor.socket',
  'processor.generation',
  'processor.firmware',
  'processor.boardPower',
] as const)('%s is silent when neither processor nor board changes', (id) => {
  expect(says(id, { add: [{ ...card, id: 'CARD-NEW' }] })).toBeUndefined()
  expect(says(id, { add: [processor], out: [processor.id] })).toBeUndefined()
  expect(says(id, { add: [{ ...board, id: 'BRD-NEW' }] })).toBeDefined()
})

// ATX12V design guide: two 12 V contacts of 8 A each are 192 W, four are 384 W.
test.each([
  { drawW: 192, plug: '4-pin', gives: 'silent' },
  { drawW: 193, plug: '4-pin', gives: 'fits after work' },
  { drawW: 193, plug: '8-pin', gives: 'fits' },
  { drawW: 384, plug: '8-pin', gives: 'fits' },
  { drawW: 385, plug: '8-pin', gives: 'fits after work' },
] as const)('$drawW W over a $plug plug: $gives', ({ drawW, plug, gives }) => {
  const of = limits({ processorPowerW: 400, processorPlug: plug })
  const f = says('processor.plug', { add: [{ ...next, limitPowerW: drawW }], limits: of })
  expect(f?.verdict ?? 'silent').toBe(gives)
  expect(f?.needs ?? []).toEqual(gives === 'fits after work' ? [{ part: 'supply' }] : [])
})

test('a board that feeds less spares the plug, and nobody asks for it then', () => {
  const hungry = [{ ...next, limitPowerW: 250 }]
  const of = (processorPowerW: number) => limits({ processorPowerW }, ['processorPlug'])
  expect(says('processor.plug', { add: hungry, limits: of(192) })).toBeUndefined()
  expect(says('processor.plug', { add: hungry, limits: of(193) })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ limit: 'processorPlug' }] },
  })
  const capped = limits({ processorPowerW: 300 })
  expect(says('processor.plug', { add: [{ ...next, limitPowerW: 400 }], limits: capped })).toMatchObject({
    ...{ verdict: 'fits', values: { drawW: 300, plugW: 384 } },
  })
  const unfed = limits({ processorPlug: '4-pin' }, ['processorPowerW'])
  expect(says('processor.plug', { add: hungry, limits: unfed })).toMatchObject({
    ...{ verdict: 'fits after work', values: { drawW: 250, plugW: 192 } },
  })
  expect(says('processor.plug', { add: [{ ...card, id: 'CARD-NEW' }], limits: unfed })).toBeUndefined()
})

test('a supply in the change with too small a plug still leaves the processor in need of one', () => {
  const add = [{ ...next, limitPowerW: 250 }, { kind: 'supply', id: 'PSU-NEW', name: 'New supply' } as const]
  const of = limits({ processorPowerW: 300, processorPlug: '4-pin' })
  expect(says('processor.plug', { add, limits: of })).toMatchObject({
    ...{ verdict: 'fits after work', needs: [{ part: 'supply' }] },
  })
})

// Intel product pages: i5-12400F 117 W, i5-12600K 150 W; `i5` alone may be either.
test.each([
  { model: 'i5-12400F', own: undefined, watts: 117 },
  { model: 'i5-12600K', own: undefined, watts: 150 },
  { model: 'i5', own: undefined, watts: undefined },
  { model: 'i5-12400F', own: 90, watts: 90 },
  { model: 'i5-12400F', own: Number.NaN, watts: 117 },
])('a $model with a figure of $own is taken for $watts W', ({ model, own, watts }) => {
  const add = [{ ...next, generation: '12th (Alder Lake)', processorClass: model, limitPowerW: own }]
  const f = says('processor.boardPower', { add })
  expect(f?.values.processorLimitW).toBe(watts)
  expect(says('power.load', { add })?.values.processorW).toBe(watts)
  if (watts === undefined) expect(f?.missing).toMatchObject([{ spec: 'limitPowerW' }])
})

test('an update in the change takes the place of the version in the board', () => {
  const work = ['firmware update']
  const of = limits({ generationSupport: 'firmware update', firmwareNeeded: '1.60' }, ['firmware'])
  expect(says('processor.firmware', { add: [next], work, limits: of })).toBeUndefined()
  expect(says('processor.update', { add: [next], work, limits: of })).toMatchObject({
    ...{ verdict: 'fits after work', needs: [{ work: 'firmware update' }] },
    cautions: ['backup', 'recovery-key', 'no-power-loss', 'one-way'],
  })
  expect(says('processor.update', { add: [next], limits: of })).toBeUndefined()
  const unlisted = limits({ generationSupport: 'firmware update' }, ['firmware', 'firmwareNeeded'])
  expect(says('processor.update', { add: [next], work, limits: unlisted })).toMatchObject({
    ...{ verdict: "can't tell", missing: [{ limit: 'firmwareNeeded' }] },
  })
  const native = limits({}, ['firmware', 'firmwareNeeded'])
  expect(says('processor.update', { add: [next], work, limits: native })).toBeUndefined()
})

test.each([
  { have: '1.19', gives: 'fits after work' },
  { have: '1.20', gives: 'fits' },
  { have: '1.21', gives: 'fits' },
  { have: 'F4', gives: 'fits after work' },
])('with $have in the board and 1.20 needed, an update in the change: $gives', ({ have, gives }) => {
  const of = limits({ firmware: have, firmwareNeeded: '1.20' })
  const f = says('processor.update', { add: [next], work: ['firmware update'], limits: of })
  expect(f).toMatchObject({ verdict: gives })
})
