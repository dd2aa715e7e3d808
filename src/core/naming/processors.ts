import { GENERATIONS } from '../facts/generations.ts'
import { rowsFor } from '../facts/processors.ts'
import { MODELS, type Model } from './processorModels.ts'
import { blank, type Found, findAll, LEFT, pieceOf, RIGHT } from './text.ts'
import type { Pieces } from './understood.ts'

/** Letters after a model number that belong to it even when a space is between: `10400 F`. */
const SUFFIXES = 'AF|B|C|E|F|GE|GT|G|HK|HQ|HS|HX|H|KA|KF|KS|K|MQ|M|P|R|S|TE|T|U|WX|X3D|XT|X|Y'
/** A number ends with its letters: attached, or after a space or dash. */
const TAIL = `(?:([a-z][a-z0-9]*)|[ -]+(${SUFFIXES}))?${RIGHT}`
/** `10400/F`, `12600K (KF)`, `3600/3700`: the writer names two. */
const TWO_IN_ONE = new RegExp(`^ *[/(] *(?:\\d{3,5}|${SUFFIXES})${RIGHT}`, 'iu')

/** Ways to write a family: what stands before the number, and the families it may mean. Groups: family, number. */
const FAMILIES: readonly {
  readonly pattern: string
  readonly families: (word: string) => readonly string[]
}[] = [
  { pattern: `(?:core *-?)? *i([3579])[ -]*(\\d{4,5})`, families: (tier) => [`i${tier}`] },
  { pattern: `(?:core[ -]*)?ultra[ -]*([579])[ -]*(\\d{3})`, families: (tier) => [`Ultra ${tier}`] },
  {
    pattern: `(?:(pentium|celeron)[ -]*(?:gold[ -]*)?)?(g[ -]?\\d{4})`,
    families: (word) => (word === '' ? ['Pentium', 'Celeron'] : [capital(word)]),
  },
  { pattern: `(processor)[ -]+(300)`, families: () => ['Processor 300'] },
  {
    pattern: `ryzen[ -]*([3579])?[ -]*(?:pro[ -]*)?(\\d{4})`,
    families: (tier) => (tier === '' ? ['3', '5', '7', '9'] : [tier]).map((t) => `Ryzen ${t}`),
  },
  { pattern: `r([3579])[ -]*(?:pro[ -]*)?(\\d{4})`, families: (tier) => [`Ryzen ${tier}`] },
  {
    pattern: `athlon[ -]*(?:pro[ -]*)?(x4|silver|gold)?[ -]*(?:pro[ -]*)?(\\d{3,4})`,
    families: (word) => [`Athlon ${capital(word)}`.trim()],
  },
  { pattern: `(fx)[ -]*(\\d{4})`, families: () => ['FX'] },
  { pattern: `(a(?:4|6|8|10|12))[ -]*(\\d{4})`, families: (word) => [word.toUpperCase()] },
]

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1).toLowerCase()

type Mention = { readonly found: Found; readonly model: Model | undefined }

function mentionOf(text: string, found: Found, families: readonly string[] | undefined): Mention {
  const [, , digits = '', attached = '', apart = ''] = found.groups
  const number = `${digits.replace(/[ -]/g, '')}${attached}${apart}`.toUpperCase()
  const named = MODELS.filter(
    (model) => model.number === number && (families === undefined || families.includes(model.family)),
  )
  const isOne = named.length === 1 && !TWO_IN_ONE.test(text.slice(found.end))
  return { found, model: isOne ? named[0] : undefined }
}

function mentionsIn(text: string): Mention[] {
  let left = text
  const mentions = FAMILIES.flatMap(({ pattern, families }) => {
    const all = findAll(left, `${LEFT}${pattern}${TAIL}`)
    left = blank(left, all)
    return all.map((found) => mentionOf(text, found, families(found.groups[1] ?? '')))
  })
  return [...mentions, ...withoutFamily(left)]
}

/**
 * `5600X` or `10400` alone: read when its number is unlike a rate or a year (five digits or letters after it) and one
 * family has it. i7-7700K and A10-7700K share one, so `7700K` alone is nothing.
 */
const withoutFamily = (text: string): Mention[] =>
  findAll(text, `(?<!-)${LEFT}()(\\d{4,5})${TAIL}`)
    .filter(({ groups }) => groups[2]?.length === 5 || groups[3] !== undefined || groups[4] !== undefined)
    .filter(({ groups }) =>
      MODELS.some((m) => m.number === `${groups[2]}${groups[3] ?? groups[4] ?? ''}`.toUpperCase()),
    )
    .map((found) => mentionOf(text, found, undefined))

/**
 * The class under which facts/processors finds the model's row: the family where that says as much, else the model.
 * A model that no row names (i5-13490F) gets the wider family, of which only what all rows agree on is used.
 */
function classOf({ generation, family, name }: Model): string | undefined {
  if (rowsFor(generation, undefined).every((row) => row.classes.length === 0)) return undefined
  const byModel = rowsFor(generation, name)
  const byFamily = rowsFor(generation, family)
  if (byModel.length === 0) return byFamily.length === 0 ? undefined : family
  const isSame = byModel.length === byFamily.length && byModel.every((row) => byFamily.includes(row))
  return isSame ? family : name
}

/**
 * What the name of a processor says: generation, its socket, class and whether it has graphics of its own. Nothing
 * for a number that is not in the list, for two processors in one text, or for a number that two families share.
 * Source: Intel processor numbers, AMD processor model numbers.
 */
export function readProcessor(text: string): Pieces<'processor'> {
  const mentions = mentionsIn(text)
  const [first] = mentions
  const model = first?.model
  if (first === undefined || model === undefined) return {}
  if (mentions.some((mention) => mention.model !== model)) return {}
  const piece = <V>(value: V) =>
    pieceOf(
      text,
      first.found,
      value,
      model.vendor === 'Intel' ? 'Intel processor numbers' : 'AMD processor model numbers',
    )
  const processorClass = classOf(model)
  return {
    socket: piece(GENERATIONS[model.generation]),
    generation: piece(model.generation),
    processorClass: processorClass === undefined ? undefined : piece(processorClass),
    integratedGraphics: model.ownGraphics === undefined ? undefined : piece(model.ownGraphics),
  }
}
