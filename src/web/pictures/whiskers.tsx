import { type Coverage, HALF_WIDTH_SD } from '../../core/gain/intervals.ts'
import { percentOf } from './scale.ts'

const HEIGHT = 64

/** One title: where an end's runs landed, today and after, and where results land. All in FPS. */
export type Whiskers = {
  readonly beforeFps: number
  readonly afterFps: number
  readonly sdAfter: number
  readonly runsBefore: readonly number[]
  readonly runsAfter: readonly number[]
  readonly targetFps: number
}

/** The wider the share of results, the thinner its line: told apart without colour. */
const LINES: readonly { readonly coverage: Coverage; readonly width: number; readonly cap: number }[] = [
  { coverage: 90, width: 1, cap: 5 },
  { coverage: 80, width: 2.4, cap: 8 },
  { coverage: 50, width: 5, cap: 0 },
]

const Dots = ({ rates, at, y }: { rates: readonly number[]; at: (fps: number) => string; y: number }) => (
  <>
    {rates.map((fps) => (
      <circle class="run-dot" cx={at(fps)} cy={y} r="3.5" />
    ))}
  </>
)

/** Bars from zero, whiskers over the end of the thick one. Every figure stands in the tables below it. */
export const WhiskerBars = ({ of }: { of: Whiskers }) => {
  const reach = (sds: number) => of.afterFps * Math.exp(sds * of.sdAfter)
  const max =
    1.06 * Math.max(of.targetFps, of.beforeFps, reach(HALF_WIDTH_SD[90]), ...of.runsAfter, ...of.runsBefore)
  const at = percentOf(0, max)
  const y = 40
  return (
    <svg class="bars" height={HEIGHT} width="100%" aria-hidden="true">
      <rect class="before" x="0" y="4" height="10" width={at(of.beforeFps)} />
      <Dots rates={of.runsBefore} at={at} y={9} />
      <rect class="after soft-bar" x="0" y="26" height="28" width={at(of.afterFps)} />
      <g class="bracket">
        {LINES.map(({ coverage, width, cap }) => {
          const [low, high] = [reach(-HALF_WIDTH_SD[coverage]), reach(HALF_WIDTH_SD[coverage])]
          return (
            <>
              <line x1={at(low)} x2={at(high)} y1={y} y2={y} stroke-width={width} />
              {cap > 0 &&
                [low, high].map((end) => <line x1={at(end)} x2={at(end)} y1={y - cap} y2={y + cap} />)}
            </>
          )
        })}
      </g>
      <Dots rates={of.runsAfter} at={at} y={60} />
      <line class="wanted" x1={at(of.targetFps)} x2={at(of.targetFps)} y1="0" y2="100%" />
    </svg>
  )
}
