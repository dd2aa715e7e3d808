import type { Value } from '../../core/fit/finding.ts'
import type { FigureName } from '../../core/naming/understood.ts'

export const NAMING_FRAMES = {
  read: (from: string, figures: readonly string[]): string => `Read from "${from}": ${figures.join(', ')}.`,
  unread: (pieces: readonly string[]): string => `Not read: ${pieces.map((p) => `"${p}"`).join(', ')}.`,
  nothing: (name: string): string =>
    `Nothing was read from "${name}". What needs a figure of it says "can't tell".`,
} as const

/** How a figure is said; `figure` is the value with its unit. A generation is said without its code name. */
const FIGURE_WORDS: Readonly<Record<FigureName, (figure: string, value: Value) => string>> = {
  socket: (figure) => `socket ${figure}`,
  generation: (figure) =>
    /^\d+th/.test(figure) ? `${figure.replace(/ \(.*/, '')} generation` : `generation ${figure}`,
  processorClass: (figure) => `class ${figure}`,
  integratedGraphics: (_, value) => (value === true ? 'graphics of its own' : 'no graphics of its own'),
  chipset: (figure) => `chipset ${figure}`,
  form: (figure) => `form ${figure}`,
  memoryType: (figure) => `memory ${figure}`,
  memorySlots: (figure, value) => (value === 1 ? 'one memory slot' : `${figure} memory slots`),
  modules: (figure, value) => (value === 1 ? 'one module' : `${figure} modules`),
  moduleGB: (figure) => `${figure} a module`,
  rateMts: (figure) => `rated for ${figure}`,
  lengthMm: (figure) => `${figure} long`,
  memoryGB: (figure) => `${figure} of memory`,
  plugs: (figure) => (figure.startsWith('no ') ? figure : `plugs ${figure}`),
  pcieGen: (figure) => `link generation ${figure}`,
  pcieLanes: (figure, value) => (value === 1 ? 'one lane' : `${figure} lanes`),
  ratedW: (figure) => `rated for ${figure}`,
  boardForms: (figure) => `takes boards of form ${figure}`,
  cardRoomMm: (figure) => `${figure} of room for a card`,
  coolerRoomMm: (figure) => `${figure} of room for a cooler`,
  heightMm: (figure) => `${figure} high`,
  capacityGB: (figure) => `holds ${figure}`,
  sizeMm: (figure) => `size ${figure}`,
}

export const sayFigureOf = (field: FigureName, value: Value, figure: string): string =>
  FIGURE_WORDS[field](figure, value)
