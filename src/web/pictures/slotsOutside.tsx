import type { MachineSlots } from '../../core/slots/slots.ts'
import type { PlugKind, SupplySlots } from '../../core/slots/supply.ts'
import { SLOTS_EN as W } from '../../words/en/slots.ts'
import type { Figures } from '../../words/figures.ts'
import { fill } from '../../words/say.ts'
import { sayCounts, sayRoom } from '../../words/slots.ts'
import { Box, Peg, SHAPE, Words } from './slotShapes.tsx'

const LEFT = 14
const RIGHT = 322

/** Contacts side by side in a plug's two rows (Intel 336521, Tables 5-5 and 5-6; 16-pin: 12 and 4 small ones). */
const COLUMNS: Record<PlugKind, number> = { pin6: 3, pin8: 4, pin16: 6 }
const CONTACT = 7

/** As many plugs as stand side by side. */
const PLUGS_DRAWN = 6
const PLUG_W = 52

const Plug = ({
  kind,
  state,
  x,
  y,
}: NonNullable<SupplySlots['plugs']>[number] & { x: number; y: number }) => (
  <>
    <rect
      class={`place ${SHAPE[state]}`}
      {...{ x, y, height: CONTACT * 2 + 6, rx: 2 }}
      width={COLUMNS[kind] * CONTACT + 5}
    />
    {Array.from({ length: COLUMNS[kind] * 2 }, (_, i) => (
      <rect
        class="contact"
        x={x + 4 + (i % COLUMNS[kind]) * CONTACT}
        y={y + 4 + Math.floor(i / COLUMNS[kind]) * CONTACT}
        width={CONTACT - 3}
        height={CONTACT - 3}
      />
    ))}
    <Peg x={x + 7} y={y + 32} state={state} r={5} />
    <Words x={x + 17} y={y + 36} text={W.plug[kind].replace('-pin', '')} />
  </>
)

const Supply = ({ supply, y, figures }: { supply: SupplySlots; y: number; figures: Figures }) => {
  const { plugs } = supply
  return (
    <>
      <Words x={LEFT} y={y + 12} text={W.places.supply} soft />
      <Words x={LEFT + 62} y={y + 12} text={saySupply(supply, figures)} />
      <Words x={LEFT} y={y + 34} text={W.places.plugs} soft />
      {plugs === undefined ? (
        <>
          <Box x={LEFT} y={y + 42} w={33} h={20} state="can't tell" />
          <Peg x={LEFT + 48} y={y + 52} state="can't tell" />
          <Words x={LEFT + 62} y={y + 57} text={W.state["can't tell"]} />
        </>
      ) : (
        <>
          {plugs.slice(0, PLUGS_DRAWN).map((plug, i) => (
            <Plug {...plug} x={LEFT + i * PLUG_W} y={y + 42} />
          ))}
          <Words x={LEFT} y={y + 98} text={sayCounts(plugs.map(({ state }) => state))} />
        </>
      )}
    </>
  )
}

/** Rating and what of it is on 12 V. */
export function saySupply({ ratedW, rail12VW }: SupplySlots, figures: Figures): string {
  const unknown = W.state["can't tell"]
  const rated = ratedW === undefined ? unknown : figures.named('W', ratedW)
  const rail = rail12VW === undefined ? unknown : figures.named('W', rail12VW)
  return `${rated}, ${fill(W.supply.rail, { value: rail })}`
}

const Room = ({ room, y, figures }: { room: MachineSlots['room'][number]; y: number; figures: Figures }) => {
  const { roomMm, usedMm } = room
  const span = Math.max(roomMm ?? 0, usedMm ?? 0, 1)
  const at = (mm: number) => Math.round((mm / span) * (RIGHT - LEFT) * (roomMm === undefined ? 0.7 : 1))
  return (
    <>
      <Words x={LEFT} y={y + 12} text={W.places[room.what]} soft />
      <Words x={LEFT + 116} y={y + 12} text={sayRoom(room, figures)} />
      <Box x={LEFT} y={y + 19} w={RIGHT - LEFT} h={12} state={roomMm === undefined ? "can't tell" : 'free'} />
      {usedMm !== undefined && <Box x={LEFT} y={y + 19} w={at(usedMm)} h={12} state="taken" />}
    </>
  )
}

const ROOM_H = 42

/** What is not on the board: the supply and the room in the case. `end` is where the drawing ends. */
export function SlotsOutside({ slots, figures, y }: { slots: MachineSlots; figures: Figures; y: number }) {
  const { supply, room } = slots
  const roomY = y + (supply.plugs === undefined ? 78 : 112)
  return {
    end: roomY + room.length * ROOM_H,
    drawn: (
      <>
        <Supply supply={supply} y={y} figures={figures} />
        {room.map((one, i) => (
          <Room room={one} y={roomY + i * ROOM_H} figures={figures} />
        ))}
      </>
    ),
  }
}
