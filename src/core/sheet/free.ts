import type { Build } from '../build.ts'
import type { LimitKey, Limits } from '../limits/limit.ts'
import type { Drive, DriveForm, Plugs } from '../part.ts'
import type { Free } from './sheet.ts'

/**
 * Slots, sockets, ports, bays and plugs with what is in them today. A 2.5-inch drive without a bay of its own counts
 * in a 3.5-inch one (with a bracket, common practice). A limit that nobody is asked for is listed where it is stated.
 */
export function freePlaces(build: Build, limits: Limits): Free[] {
  const { board, card, drives, memory } = build
  const known = <K extends LimitKey>(key: K) => {
    const limit = limits[key]
    return limit.known ? limit.value : undefined
  }
  const count = (form: DriveForm) => drives.filter((drive) => drive.form === form).length
  const [bays25, bays35] = [known('bays25'), known('bays35')]
  const [small, large] = [count('2.5-inch'), count('3.5-inch')]
  const inLargeBays = bays25 === undefined ? 0 : Math.max(0, small - bays25)
  const sockets = board?.m2Sockets?.filter(({ key }) => key !== 'E')
  const turnsOff = sockets?.some((socket) => (socket.sataPortsOff ?? []).length > 0) === true
  const plugs = known('supplyPlugs')
  const modules = memory.reduce((sum, kit) => sum + (kit.modules ?? Number.NaN), 0)
  const rows: (Free | undefined)[] = [
    Number.isFinite(modules)
      ? { what: 'memory slots', total: known('memorySlots'), used: modules }
      : { what: 'memory slots', used: 0 },
    sockets && { what: 'M.2 sockets', total: sockets.length, used: count('M.2') },
    ifStated('SATA ports', known('sataPorts'), drives.filter(onCable).length, turnsOff && count('M.2') > 0),
    ifStated('2.5-inch bays', bays25, Math.min(small, bays25 ?? 0)),
    ifStated('3.5-inch bays', bays35, Math.min(large + inLargeBays, bays35 ?? 0)),
    ifStated('card plugs', plugs && countOf(plugs), card?.plugs === undefined ? 0 : countOf(card.plugs)),
    ifStated('drive plugs', known('sataPlugs'), drives.filter(onCable).length),
  ]
  return rows.filter((row) => row !== undefined)
}

const ifStated = (what: Free['what'], total: number | undefined, used: number, atMost = false) =>
  total === undefined ? undefined : { what, total, used, ...(atMost && { atMost: true as const }) }

const onCable = ({ form, interface: speaks }: Drive): boolean => form !== 'M.2' && speaks !== 'PCIe'

const countOf = ({ pin6, pin8, pin16 }: Plugs): number => pin6 + pin8 + pin16
