import {
  BOARD_FORMS,
  type Board,
  BRACKETS,
  type Case,
  type Cooler,
  DRIVE_FORMS,
  DRIVE_INTERFACES,
  type Drive,
  type Fan,
  FRONT_PLUGS,
  type GraphicsCard,
  M2_KEYS,
  MEMORY_TYPES,
  type MemoryKit,
  MODULE_FORMS,
  type PartKind,
  PROCESSOR_PLUGS,
  type Processor,
  SUPPLY_DESIGNS,
  SUPPLY_FORMS,
  type Supply,
  VIDEO_SOCKETS,
} from '../../core/part.ts'
import { firmwareList, key, line, list, number, oneOf, plugs, whole, yesNo } from '../cells.ts'
import { may, need, table } from '../csv/table.ts'
import { fanPlaces, m2Sockets, radiatorPlaces } from '../places.ts'

/** One file a kind of part. Bounds are wide: they catch slips of the keyboard, not odd hardware. */

const mm = number(1, 1000, 'mm')
const watts = number(1, 5000, 'W')
const gigabytes = number(0.25, 100_000, 'GB')
const rate = number(200, 20_000, 'MT/s')
const generation = whole(1, 9)
const lanes = whole(1, 32, 'lanes')

const named = { part: need('id', key), name: need('name', line()) }
const nominal = {
  nominal_figure: may('nominalFigure', number(0.001, 1_000_000_000)),
  nominal_source: may('nominalSource', line()),
}
/** One named socket for each way a processor's foot is written. */
const socket = line(40)

export const PART_TABLES = {
  processor: table<Processor>()({
    name: 'processors',
    key: ['part'],
    columns: {
      ...named,
      socket: may('socket', socket),
      generation: may('generation', line(60)),
      class: may('processorClass', line(40)),
      cores: may('cores', whole(1, 512)),
      limit_power_w: may('limitPowerW', watts),
      integrated_graphics: may('integratedGraphics', yesNo),
      ...nominal,
    },
  }),
  board: table<Board>()({
    name: 'boards',
    key: ['part'],
    columns: {
      ...named,
      socket: may('socket', socket),
      chipset: may('chipset', line(40)),
      form: may('form', oneOf(BOARD_FORMS)),
      memory_type: may('memoryType', oneOf(MEMORY_TYPES)),
      memory_slots: may('memorySlots', whole(1, 32)),
      memory_max_gb: may('memoryMaxGB', gigabytes),
      memory_per_slot_max_gb: may('memoryPerSlotMaxGB', gigabytes),
      memory_rate_mts_max: may('memoryRateMtsMax', rate),
      slot_pcie_gen: may('slotPcieGen', generation),
      slot_lanes: may('slotLanes', lanes),
      slot_lanes_shared: may('slotLanesShared', lanes),
      large_bar: may('largeBar', yesNo),
      processor_power_w: may('processorPowerW', watts),
      m2_sockets: may('m2Sockets', m2Sockets),
      sata_ports: may('sataPorts', whole(0, 32)),
      front_headers: may('frontHeaders', list(oneOf(FRONT_PLUGS))),
      firmware_by_generation: may('firmwareByGeneration', firmwareList),
      last_firmware_by_generation: may('lastFirmwareByGeneration', firmwareList),
    },
  }),
  memory: table<MemoryKit>()({
    name: 'memory',
    key: ['part'],
    columns: {
      ...named,
      memory_type: may('memoryType', oneOf(MEMORY_TYPES)),
      form: may('form', oneOf(MODULE_FORMS)),
      modules: may('modules', whole(1, 16)),
      module_gb: may('moduleGB', gigabytes),
      rate_mts: may('rateMts', rate),
      ranks: may('ranks', whole(1, 8)),
      height_mm: may('heightMm', mm),
    },
  }),
  card: table<GraphicsCard>()({
    name: 'cards',
    key: ['part'],
    columns: {
      ...named,
      length_mm: may('lengthMm', mm),
      thickness_mm: may('thicknessMm', mm),
      memory_gb: may('memoryGB', gigabytes),
      board_power_w: may('boardPowerW', watts),
      plugs: may('plugs', plugs),
      pcie_gen: may('pcieGen', generation),
      pcie_lanes: may('pcieLanes', lanes),
      bracket: may('bracket', oneOf(BRACKETS)),
      wants_large_bar: may('wantsLargeBar', yesNo),
      video_sockets: may('videoSockets', list(oneOf(VIDEO_SOCKETS))),
      ...nominal,
    },
  }),
  supply: table<Supply>()({
    name: 'supplies',
    key: ['part'],
    columns: {
      ...named,
      form: may('form', oneOf(SUPPLY_FORMS)),
      rated_w: may('ratedW', watts),
      rail_12v_w: may('rail12VW', watts),
      plugs: may('plugs', plugs),
      processor_plug: may('processorPlug', oneOf(PROCESSOR_PLUGS)),
      length_mm: may('lengthMm', mm),
      design_version: may('designVersion', oneOf(SUPPLY_DESIGNS)),
      pin16_w: may('pin16W', whole(150, 600, 'W')),
      card_cables: may('cardCables', whole(0, 12)),
      sata_plugs: may('sataPlugs', whole(0, 32)),
    },
  }),
  case: table<Case>()({
    name: 'cases',
    key: ['part'],
    columns: {
      ...named,
      board_forms: may('boardForms', list(oneOf(BOARD_FORMS))),
      supply_forms: may('supplyForms', list(oneOf(SUPPLY_FORMS))),
      card_room_mm: may('cardRoomMm', mm),
      cooler_room_mm: may('coolerRoomMm', mm),
      card_slots: may('cardSlots', whole(1, 20)),
      card_bracket: may('cardBracket', oneOf(BRACKETS)),
      supply_room_mm: may('supplyRoomMm', mm),
      supply_and_card_mm: may('supplyAndCardMm', mm),
      bays_25: may('bays25', whole(0, 32)),
      bays_35: may('bays35', whole(0, 32)),
      fan_places: may('fanPlaces', fanPlaces),
      radiator_places: may('radiatorPlaces', radiatorPlaces),
      front_plugs: may('frontPlugs', list(oneOf(FRONT_PLUGS))),
    },
  }),
  cooler: table<Cooler>()({
    name: 'coolers',
    key: ['part'],
    columns: {
      ...named,
      sockets: may('sockets', list(socket)),
      kit_sockets: may('kitSockets', list(socket)),
      height_mm: may('heightMm', mm),
      memory_room_mm: may('memoryRoomMm', mm),
      radiator_mm: may('radiatorMm', mm),
      radiator_thickness_mm: may('radiatorThicknessMm', mm),
      rated_w: may('ratedW', watts),
    },
  }),
  drive: table<Drive>()({
    name: 'drives',
    key: ['part'],
    columns: {
      ...named,
      form: may('form', oneOf(DRIVE_FORMS)),
      capacity_gb: may('capacityGB', gigabytes),
      interface: may('interface', oneOf(DRIVE_INTERFACES)),
      m2_key: may('m2Key', oneOf(M2_KEYS)),
      length_mm: may('lengthMm', mm),
      pcie_gen: may('pcieGen', generation),
      pcie_lanes: may('pcieLanes', lanes),
    },
  }),
  fan: table<Fan>()({
    name: 'fans',
    key: ['part'],
    columns: { ...named, size_mm: may('sizeMm', mm), depth_mm: may('depthMm', mm) },
  }),
} satisfies Record<PartKind, unknown>
