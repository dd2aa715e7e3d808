import type { Build } from '../core/build.ts'
import type { LimitKey, Limits } from '../core/limits/limit.ts'
import { type MachineSlots, slotsOf } from '../core/slots/slots.ts'
import { SLOTS_EN as W } from '../words/en/slots.ts'
import { SPEC_WORDS } from '../words/en/specs.ts'
import type { Figures } from '../words/figures.ts'
import { sayCounts, sayGraphics, sayM2Drives, sayMemory, sayRoom, saySocket } from '../words/slots.ts'
import { askFor } from './limits.tsx'
import { SlotsDrawing } from './pictures/slots.tsx'
import { saySupply } from './pictures/slotsOutside.tsx'

type Row = {
  readonly place: string
  readonly stands: readonly string[]
  readonly takes: readonly string[]
  /** Limits behind it; those that are not known come with how to find them out. */
  readonly keys: readonly LimitKey[]
  /** Something that cannot be told, and is no limit. */
  readonly findOut?: string | undefined
}

/** The drawing once more in words: one row a kind of place. */
function rowsOf(
  { processor, memory, graphics, drives, supply, room }: MachineSlots,
  build: Build,
  figures: Figures,
): Row[] {
  const unknown = W.state["can't tell"]
  const memoryStates = memory.slots.map(({ state }) => state)
  const noDrive = build.drives.length === 0 ? W.m2.noDrive : undefined
  const holds = drives.m2 && sayM2Drives(drives.m2, drives.m2Drives)
  return [
    {
      place: W.places.processor,
      stands: [W.state[processor.state], ...named(build.processor)],
      takes: [processor.socket ?? unknown],
      keys: ['socket'],
    },
    {
      place: W.places.memory,
      stands: [sayCounts(memoryStates, memory.total === undefined), ...build.memory.map(({ name }) => name)],
      takes: [memory.takes.memoryType ?? unknown, ...sayMemory(memory, figures)],
      keys: [
        'memoryType',
        'memorySlots',
        'memoryPerSlotMaxGB',
        'memoryMaxGB',
        'controllerRateMts',
        'boardRateMts',
      ],
      findOut: memory.tooMany ? W.memory.tooMany : undefined,
    },
    {
      place: W.places.graphics,
      stands: [W.state[graphics.state], ...named(build.card)],
      takes: sayGraphics(graphics),
      keys: ['slotPcieGen', 'slotLanes', 'processorPcieGen', 'processorPcieLanes'],
    },
    {
      place: W.places.m2,
      stands: [
        drives.m2 === undefined ? unknown : sayCounts(drives.m2.map(({ state }) => state)),
        ...(holds === undefined ? drives.m2Drives : [holds]),
      ],
      takes: drives.m2?.map(({ socket }) => `${socket.name}: ${saySocket(socket)}`) ?? [unknown],
      keys: [],
      findOut: drives.m2 === undefined ? SPEC_WORDS.m2Sockets?.findOut : noDrive,
    },
    {
      place: W.places.sata,
      stands: [sayCounts(drives.sata, drives.sataTotal === undefined), ...drives.sataDrives],
      takes: [W.m2.sata],
      keys: ['sataPorts'],
      findOut: drives.m2 === undefined ? undefined : noDrive,
    },
    {
      place: W.places.supply,
      stands: [
        supply.plugs === undefined ? unknown : sayCounts(supply.plugs.map(({ state }) => state)),
        ...named(build.supply),
      ],
      takes: [
        saySupply(supply, figures),
        `${W.places.plugs}: ${sayPlugs(supply)}`,
        `${W.places.processorPlug}: ${supply.processorPlug ?? unknown}`,
      ],
      keys: ['supplyRatedW', 'supply12VW', 'supplyPlugs', 'processorPlug'],
    },
    ...room.map(
      (one): Row => ({
        place: W.places[one.what],
        stands: [sayRoom(one, figures)],
        takes: [],
        keys: [one.what],
      }),
    ),
  ]
}

const named = (part: { readonly name: string } | undefined): string[] =>
  part === undefined ? [] : [part.name]

function sayPlugs({ plugs }: MachineSlots['supply']): string {
  if (plugs === undefined) return W.state["can't tell"]
  const kinds = (['pin6', 'pin8', 'pin16'] as const)
    .map((kind) => ({ kind, n: plugs.filter((plug) => plug.kind === kind).length }))
    .filter(({ n }) => n > 0)
  return kinds.map(({ kind, n }) => `${n} × ${W.plug[kind]}`).join(', ') || W.supply.noPlugs
}

/** How to find out each limit of a row that is not known, with the way to its form. */
const FindOut = ({
  row,
  limits,
  figures,
  limitsOn,
}: Pick<Props, 'limits' | 'figures' | 'limitsOn'> & { row: Row }) => (
  <>
    {row.keys
      .filter((key) => !limits[key].known)
      .map((key) => {
        const { label, findOut } = askFor(key, figures)
        return (
          <small class="block">
            {label}: {findOut}{' '}
            {limitsOn !== 'nowhere' && (
              <a class="ask-link" href={`${limitsOn ?? ''}#limit-${key}`}>
                {W.seeLimit}
                <span class="unseen">: {label}</span>
              </a>
            )}
          </small>
        )
      })}
    {row.findOut !== undefined && <small class="block">{row.findOut}</small>}
  </>
)

type Props = {
  build: Build
  limits: Limits
  figures: Figures
  /** The page that has the limits; absent: this one. `nowhere` for who may not look at them. */
  limitsOn?: string | undefined
}

/** The machine's slots drawn, and the table behind the drawing. */
export const SlotsShown = ({ build, limits, figures, limitsOn }: Props) => {
  const slots = slotsOf(build, limits)
  return (
    <>
      <h2 id="slots">{W.head}</h2>
      <figure>
        <SlotsDrawing slots={slots} figures={figures} />
        <figcaption>
          {W.says} {W.order}
        </figcaption>
      </figure>
      <details>
        <summary>{W.table}</summary>
        <table class="list">
          <thead>
            <tr>
              <th scope="col">{W.columns.place}</th>
              <th scope="col">{W.columns.stands}</th>
              <th scope="col">{W.columns.takes}</th>
            </tr>
          </thead>
          <tbody>
            {rowsOf(slots, build, figures).map((row) => (
              <tr>
                <td>{row.place}</td>
                <td data-label={W.columns.stands}>
                  {row.stands.map((text) => (
                    <span class="block">{text}</span>
                  ))}
                </td>
                <td data-label={W.columns.takes}>
                  {row.takes.map((text) => (
                    <span class="block">{text}</span>
                  ))}
                  <FindOut {...{ row, limits, figures, limitsOn }} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  )
}
