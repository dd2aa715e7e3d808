import { CHANNELS } from '../../limits/known.ts'
import { rule } from '../rule.ts'
import { firstAdded, touches } from '../situation.ts'
import { spec } from '../spec.ts'

/**
 * Flex mode: where the two channels hold different amounts, the smaller amount runs on both and the rest on one.
 *
 *   dualGB = 2 x GB of the smaller channel        singleGB = totalGB - dualGB
 *
 * The modules are taken to sit as evenly as they can, half of them (rounded up) on one channel. One module alone is
 * memory.channels.
 */
export const memoryFlex = rule({
  id: 'memory.flex',
  source: {
    kind: 'vendor',
    text: 'Intel datasheets vol. 1, system memory organisation modes: dual channel for the size of the smaller channel',
  },
  reads: [],
  verdicts: ['fits', 'fits slower'],
  applies: (s) =>
    touches(s, 'memory') && s.after.memory.reduce((sum, kit) => sum + (kit.modules ?? 0), 0) >= CHANNELS,
  about: (s) => firstAdded(s, s.after.memory),
  specs: ({ after }) => ({
    modules: after.memory.map((kit) => spec(kit, 'memory', 'modules')),
    moduleGBs: after.memory.map((kit) => spec(kit, 'memory', 'moduleGB')),
  }),
  values: ({ modules, moduleGBs }) => {
    const sizes = sizesOf(modules, moduleGBs)
    const totalGB = sizes?.reduce((sum, gb) => sum + gb, 0)
    const smallerGB = sizes && smallerChannel(sizes)
    const dualGB = smallerGB === undefined ? undefined : 2 * smallerGB
    const singleGB = dualGB === undefined || totalGB === undefined ? undefined : totalGB - dualGB
    return { totalGB, dualGB, singleGB }
  },
  verdict: ({ singleGB }) => (singleGB > 0 ? 'fits slower' : 'fits'),
})

/** More modules than any desktop board holds are odd data. */
const MODULES_MOST = 16

function sizesOf(modules: readonly number[], moduleGBs: readonly number[]): number[] | undefined {
  const count = modules.reduce((sum, n) => sum + n, 0)
  if (!Number.isInteger(count) || count > MODULES_MOST || !modules.every(Number.isInteger)) return undefined
  return moduleGBs.flatMap((gb, i) => Array.from({ length: modules[i] ?? 0 }, () => gb))
}

/** GB of the smaller channel when the modules are spread as evenly as their number allows. */
function smallerChannel(sizes: readonly number[]): number {
  const half = Math.ceil(sizes.length / CHANNELS)
  /** Sums that a given number of modules can make. */
  const sums: Set<number>[] = Array.from({ length: half + 1 }, () => new Set<number>())
  sums[0]?.add(0)
  for (const gb of sizes)
    for (let n = half; n > 0; n--) for (const sum of sums[n - 1] ?? []) sums[n]?.add(sum + gb)
  const totalGB = sizes.reduce((sum, gb) => sum + gb, 0)
  return Math.max(...[...(sums[half] ?? [])].map((sum) => Math.min(sum, totalGB - sum)))
}
