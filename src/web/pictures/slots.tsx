import type { DriveSlots } from '../../core/slots/drives.ts'
import type { MemorySlots } from '../../core/slots/memory.ts'
import type { GraphicsSlot, MachineSlots } from '../../core/slots/slots.ts'
import { SLOTS_EN as W } from '../../words/en/slots.ts'
import type { Figures } from '../../words/figures.ts'
import { sayCounts, sayGraphics, sayMemory, saySocket } from '../../words/slots.ts'
import { Box, cut, Peg, Words } from './slotShapes.tsx'
import { SlotsOutside } from './slotsOutside.tsx'

/** The narrowest card of a page holds it as it is; nothing in it is ever scaled but on still narrower screens. */
export const WIDTH = 336
const LEFT = 14
const LINE = 16

type Part = { y: number; figures: Figures }

const Processor = ({ processor, y }: Pick<MachineSlots, 'processor'> & { y: number }) => (
  <>
    <Words x={LEFT} y={y + 12} text={W.places.processor} soft />
    <Box x={LEFT} y={y + 20} w={92} h={92} state={processor.state} />
    <path class="corner" d={`M${LEFT + 4} ${y + 34}v-10h10z`} />
    <Words x={LEFT + 46} y={y + 62} text={cut(processor.socket ?? W.state["can't tell"], 11)} mid />
    <Peg x={LEFT + 46} y={y + 84} state={processor.state} />
  </>
)

/** Boards have two to eight; of more, the table has the rest. */
const MODULES_DRAWN = 8

const Memory = ({ memory, y, figures }: Part & { memory: MemorySlots }) => {
  const isOpen = memory.total === undefined
  const drawn = memory.slots.slice(0, MODULES_DRAWN - (isOpen ? 1 : 0))
  const all = isOpen ? [...drawn, { state: "can't tell" as const, moduleGB: undefined }] : drawn
  const pitch = Math.min(34, 200 / Math.max(1, all.length))
  const { memoryType } = memory.takes
  return (
    <>
      <Words
        x={122}
        y={y + 12}
        text={[W.places.memory, memoryType ?? W.state["can't tell"]].join(', ')}
        soft
      />
      {all.map(({ state, moduleGB }, i) => (
        <>
          <Box x={122 + i * pitch} y={y + 20} w={pitch - 7} h={92} state={state} />
          <Peg x={122 + i * pitch + (pitch - 7) / 2} y={y + 31} state={state} r={5} />
          <Words
            x={122 + i * pitch + (pitch - 7) / 2 + 4}
            y={y + 76}
            text={
              state === 'taken' && moduleGB !== undefined
                ? figures.named('GB', moduleGB)
                : wordOf(state, isOpen && i === all.length - 1)
            }
            mid
            up
          />
        </>
      ))}
      {sayMemory(memory, figures).map((text, i) => (
        <Words x={122} y={y + 130 + i * LINE} text={text} />
      ))}
    </>
  )
}

const wordOf = (state: 'taken' | 'free' | "can't tell", isMore: boolean): string =>
  isMore ? W.memory.more : W.state[state]

/** Lanes of the longest slot (PCI Express CEM). */
const LANES_MOST = 16
const LANE_W = 11

const Graphics = ({ graphics, y }: { graphics: GraphicsSlot; y: number }) => {
  const { state, built, runs } = graphics
  const lanes = built.lanes !== undefined && built.lanes <= LANES_MOST ? built.lanes : undefined
  const lines = sayGraphics(graphics)
  return (
    <>
      <Words x={LEFT} y={y + 12} text={W.places.graphics} soft />
      {lanes === undefined ? (
        <>
          <Box x={LEFT} y={y + 19} w={LANES_MOST * LANE_W} h={20} state="can't tell" />
          <Words x={LEFT + 8} y={y + 34} text={W.graphics.lanesUnknown} />
        </>
      ) : (
        Array.from({ length: lanes }, (_, i) => (
          <Box
            x={LEFT + i * LANE_W}
            y={y + 19}
            w={LANE_W - 2}
            h={20}
            state={
              state === 'taken'
                ? runs === undefined
                  ? "can't tell"
                  : i < runs.lanes
                    ? 'taken'
                    : 'free'
                : state
            }
          />
        ))
      )}
      <Peg x={LEFT + LANES_MOST * LANE_W + 16} y={y + 29} state={state} />
      <Words x={LEFT + LANES_MOST * LANE_W + 30} y={y + 34} text={W.state[state]} />
      {lines.map((text, i) => (
        <Words x={LEFT} y={y + 56 + i * LINE} text={text} />
      ))}
    </>
  )
}

const Sockets = ({ drives: { m2 }, y }: { drives: DriveSlots; y: number }) => (
  <>
    <Words x={LEFT} y={y + 12} text={W.places.m2} soft />
    {m2 === undefined && (
      <>
        <Box x={LEFT} y={y + 20} w={96} h={16} state="can't tell" />
        <Peg x={LEFT + 112} y={y + 28} state="can't tell" />
        <Words x={LEFT + 126} y={y + 33} text={`${W.state["can't tell"]}, ${W.m2.notListed}`} />
      </>
    )}
    {m2?.length === 0 && <Words x={LEFT} y={y + 33} text={W.m2.none} />}
    {m2?.map(({ state, socket }, i) => (
      <>
        <Box x={LEFT} y={y + 20 + i * SOCKET_H} w={96} h={16} state={state} />
        <circle class="screw" cx={LEFT + 88} cy={y + 28 + i * SOCKET_H} r="3" />
        <Peg x={LEFT + 112} y={y + 28 + i * SOCKET_H} state={state} />
        <Words x={LEFT + 126} y={y + 33 + i * SOCKET_H} text={`${cut(socket.name, 12)} ${W.state[state]}`} />
        <Words x={LEFT} y={y + 51 + i * SOCKET_H} text={cut(saySocket(socket), 41)} />
      </>
    ))}
  </>
)
const SOCKET_H = 40

/** As many as stand side by side. */
const PORTS_DRAWN = 10

const Ports = ({ drives: { sata, sataTotal }, y }: { drives: DriveSlots; y: number }) => {
  const isOpen = sataTotal === undefined
  const drawn = sata.slice(0, PORTS_DRAWN)
  return (
    <>
      <Words x={LEFT} y={y + 12} text={W.places.sata} soft />
      {[...drawn, ...(isOpen ? (["can't tell"] as const) : [])].map((state, i) => (
        <>
          <Box x={LEFT + i * 28} y={y + 20} w={22} h={22} state={state} />
          <Peg x={LEFT + 11 + i * 28} y={y + 31} state={state} />
        </>
      ))}
      <Words x={LEFT} y={y + 59} text={sayCounts(sata, isOpen)} />
    </>
  )
}

/**
 * The machine's places as a drawing of our own: board with processor, memory, graphics slot and drives; under it the
 * supply's plugs and the room in the case. A schematic: where on its board a slot lies, it does not say.
 */
export const SlotsDrawing = ({ slots, figures }: { slots: MachineSlots; figures: Figures }) => {
  const { processor, memory, graphics, drives } = slots
  const graphicsY = 196
  const m2Y = graphicsY + 56 + sayGraphics(graphics).length * LINE + 2
  const m2Rows = Math.max(1, drives.m2?.length ?? 1)
  const hasLines = drives.m2 !== undefined && drives.m2.length > 0
  const sataY = m2Y + (hasLines ? 20 + m2Rows * SOCKET_H : 48)
  const boardEnd = sataY + 72
  const outside = SlotsOutside({ slots, figures, y: boardEnd + 12 })
  return (
    <svg
      class="slots"
      width={WIDTH}
      height={outside.end}
      viewBox={`0 0 ${WIDTH} ${outside.end}`}
      aria-hidden="true"
    >
      <rect class="board" x="1" y="1" width={WIDTH - 2} height={boardEnd} rx="3" />
      <Processor processor={processor} y={10} />
      <Memory memory={memory} y={10} figures={figures} />
      <Graphics graphics={graphics} y={graphicsY} />
      <Sockets drives={drives} y={m2Y} />
      <Ports drives={drives} y={sataY} />
      {outside.drawn}
    </svg>
  )
}
