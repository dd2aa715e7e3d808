import fc from 'fast-check'
import {
  HOUSINGS,
  LANES,
  MODULE_SHAPES,
  MODULE_TYPES,
  SOCKETS,
  slotType,
} from '../../../src/core/firmwareTable/codes.ts'
import type { FirmwareTable, TableModule } from '../../../src/core/firmwareTable/table.ts'

/** Any table that the standard can write, with texts as a reader gives them back (no outer or double spaces). */
const text = fc.stringMatching(/^[!-~]{1,12}( [!-~]{1,12}){0,2}$/).filter((t) => t.length <= 100)
const maybe = <T>(arb: fc.Arbitrary<T>) => fc.option(arb, { nil: undefined })
const oneOf = <T>(values: Iterable<T>) => fc.constantFrom(...values)

const slotTypes = Array.from({ length: 256 }, (_, code) => slotType(code)).filter((s) => s !== undefined)

const module: fc.Arbitrary<TableModule> = fc
  .record({
    place: maybe(text),
    bank: maybe(text),
    holds: fc.constantFrom('module' as const, 'nothing' as const, 'not told' as const),
    sizeMiB: fc.oneof(
      fc.constantFrom(512, 1024, 8192, 16_384, 32_766, 32_767, 32_768, 49_152, 2 ** 31 - 1),
      fc.integer({ min: 1, max: 2 ** 31 - 1 }),
      fc.integer({ min: 1, max: 1023 }).map((kib) => kib / 1024),
    ),
    type: maybe(oneOf(Object.values(MODULE_TYPES))),
    shape: maybe(oneOf(Object.values(MODULE_SHAPES))),
    ratedMts: maybe(
      fc.oneof(fc.integer({ min: 1, max: 2 ** 31 - 1 }), fc.constantFrom(2666, 65_534, 65_535, 65_536)),
    ),
    runsMts: maybe(fc.integer({ min: 1, max: 10_000 })),
    maker: maybe(text),
    partNumber: maybe(text),
    ranks: maybe(fc.integer({ min: 1, max: 15 })),
  })
  .map(({ sizeMiB, ...rest }) => (rest.holds === 'module' ? { ...rest, sizeMiB } : rest))

export const arbitraryTable: fc.Arbitrary<FirmwareTable> = fc.record({
  version: fc.constant('3.2'),
  firmware: fc.record({
    maker: maybe(text),
    version: text,
    date: maybe(fc.constantFrom('2019-12-03', 'Dec 2019')),
  }),
  system: fc.record({ maker: maybe(text), product: maybe(text) }),
  board: fc.record({ maker: maybe(text), product: maybe(text), version: maybe(text) }),
  housing: maybe(oneOf(Object.values(HOUSINGS))),
  trustModule: maybe(fc.constantFrom('2.0' as const, '1.2' as const)),
  processors: fc.array(
    fc.record({
      place: maybe(text),
      maker: maybe(text),
      name: maybe(text),
      fitted: fc.boolean(),
      socket: maybe(oneOf(Object.values(SOCKETS))),
      cores: maybe(fc.oneof(fc.integer({ min: 1, max: 0xfffe }), fc.constantFrom(254, 255, 256))),
      threads: maybe(fc.integer({ min: 1, max: 0xfffe })),
    }),
    { maxLength: 2 },
  ),
  arrays: fc.array(
    fc.record({
      maxMiB: maybe(
        fc.oneof(
          fc.constantFrom(65_536, 2_097_151, 2_097_152, 4_194_304),
          fc.integer({ min: 1, max: 2 ** 32 }),
        ),
      ),
      places: maybe(fc.integer({ min: 1, max: 128 })),
    }),
    { maxLength: 2 },
  ),
  modules: fc.array(module, { maxLength: 8 }),
  slots: fc.array(
    fc
      .record({
        name: maybe(text),
        kind: maybe(oneOf(slotTypes)),
        lanes: maybe(oneOf(Object.values(LANES))),
        usage: maybe(fc.constantFrom('available' as const, 'in use' as const, 'unavailable' as const)),
      })
      .map(({ kind, ...rest }) => ({ ...rest, ...kind })),
    { maxLength: 8 },
  ),
  missingTexts: fc.constant(0),
})
