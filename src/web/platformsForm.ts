import { partFromWords } from '../core/naming/partFromWords.ts'
import type { Part, PartKind } from '../core/part.ts'
import type { Platform } from '../core/reach/ask.ts'
import { line, money, number, whole } from '../input/cells.ts'
import { checkReachAsk } from '../input/reachAsk.ts'
import { failed, ok, type Problem, type Result } from '../problem.ts'
import type { LooksView } from '../uses/reach/looks.ts'
import type { Asked } from '../uses/reach/reachInputs.ts'
import { REACH_EN } from '../words/en/reach.ts'
import { KIND_WORDS } from '../words/options.ts'
import { fill } from '../words/say.ts'
import { type Typed, textOf } from './form.tsx'
import { fieldReader, type readingOf } from './typed.ts'

/** What a platform is named by, and what all start with. */
export const CORE_KINDS = ['board', 'processor', 'memory'] as const satisfies readonly PartKind[]
export const AROUND_KINDS = ['card', 'supply', 'case', 'cooler'] as const satisfies readonly PartKind[]
/** Without a card nothing can be played; the others may be left open and then decide nothing. */
export const NEEDED_AROUND: ReadonlySet<PartKind> = new Set(['card'])

export const PLATFORMS_MOST = 6
const PLATFORMS_AT_FIRST = 2
const NAME_MOST = 60

const W = REACH_EN

export const platformField = (n: number, what: string): string => `platform.${n}.${what}`
export const priceField = (n: number, kind: PartKind): string => platformField(n, `${kind}Price`)
export const aroundField = (kind: PartKind): string => `around.${kind}`
export const titleField = (titleId: string): string => `title.${titleId}`

/** How many platforms the form shows: those it had, two at least, and one more when asked. */
export function platformCount(typed: Typed, oneMore: boolean): number {
  const shown = Number(textOf(typed, 'count') ?? PLATFORMS_AT_FIRST)
  const count = Number.isInteger(shown) ? Math.max(PLATFORMS_AT_FIRST, shown) : PLATFORMS_AT_FIRST
  return Math.min(PLATFORMS_MOST, count + (oneMore ? 1 : 0))
}

/** So many titles are chosen beforehand; a shop that tests a hundred does not sell for all of them. */
const TITLES_AT_FIRST = 10

/** What the form says before anything is typed: the titles run most often are played, each at the setting it is run at most often. */
export function firstTyped({ runCounts }: Pick<LooksView, 'runCounts'>): Typed {
  const settingOf = new Map<string, string>()
  for (const { titleId, settingId } of runCounts)
    if (!settingOf.has(titleId) && settingOf.size < TITLES_AT_FIRST) settingOf.set(titleId, settingId)
  return new Map([
    ...[...settingOf].map(([titleId, settingId]) => [titleField(titleId), [settingId]] as const),
    ...([
      ['target', ['60']],
      ['upTo', ['600']],
      ['fall', ['10']],
      ['heavier', ['8']],
      ['years', ['3']],
    ] as const),
  ])
}

/** The lowest price at which the shop has a part or saw it; the high end of what it was seen for. */
export function priceOf({ shelf, findable }: LooksView, partId: string): number | undefined {
  const prices = [
    ...shelf.filter((item) => item.partId === partId).map(({ priceMinor }) => priceMinor),
    ...findable.filter((one) => one.partId === partId).map(({ highMinor }) => highMinor),
  ]
  return prices.length === 0 ? undefined : Math.min(...prices)
}

/** The part of the shop that is named so, else one made of what its name tells. */
function partNamed(kind: PartKind, words: string, place: string, { parts }: LooksView): Part {
  const bare = words.toLowerCase()
  const known = parts.find(
    (part) => part.kind === kind && (part.id.toLowerCase() === bare || part.name.toLowerCase() === bare),
  )
  return known ?? asMostAre(partFromWords(kind, `~typed-${place}`, words).part)
}

/** No name tells how wide a graphics slot is wired; without it there is not even a bound. Common practice; the page says so. */
export const USUAL_SLOT_LANES = 16
const asMostAre = (part: Part): Part =>
  part.kind === 'board' && part.slotLanes === undefined ? { ...part, slotLanes: USUAL_SLOT_LANES } : part

/** The form as an ask and its name; every problem names a field of the form. */
export function readLook(
  typed: Typed,
  view: LooksView,
  reading: ReturnType<typeof readingOf>,
): Result<{ readonly asked: Asked; readonly name: string }> {
  const { read, problems } = fieldReader(typed, reading)
  const own = new Map<string, Part>()
  const shopIds = new Set(view.parts.map(({ id }) => id))
  const take = (part: Part): string => {
    if (!shopIds.has(part.id)) own.set(part.id, part)
    return part.id
  }
  const missing = (field: string, next: string) => problems.push({ code: 'missing', field, next })

  const around = AROUND_KINDS.flatMap((kind) => {
    const field = aroundField(kind)
    const words = read(field, line())
    if (words !== undefined) {
      const partId = take(partNamed(kind, words, kind, view))
      return [{ partId, priceMinor: priceOf(view, partId) }]
    }
    if (NEEDED_AROUND.has(kind) && textOf(typed, field) === undefined)
      missing(field, fill(W.missing.around, { kind: KIND_WORDS[kind] }))
    return []
  })

  const platforms: Platform[] = []
  for (let n = 0; n < platformCount(typed, false); n++) {
    const isEmpty = CORE_KINDS.every((kind) => textOf(typed, platformField(n, kind)) === undefined)
    const name = read(platformField(n, 'name'), line(NAME_MOST))
    const core = CORE_KINDS.flatMap((kind) => {
      const words = read(platformField(n, kind), line())
      const price = read(priceField(n, kind), money)
      if (words === undefined) {
        if (!isEmpty && textOf(typed, platformField(n, kind)) === undefined)
          missing(platformField(n, kind), fill(W.missing.part, { kind: KIND_WORDS[kind] }))
        return []
      }
      const part = partNamed(kind, words, `${n}-${kind}`, view)
      const partId = take(part)
      return [{ partId, name: part.name, priceMinor: price ?? priceOf(view, partId) }]
    })
    if (isEmpty) continue
    platforms.push({
      name:
        name ??
        core
          .slice(0, 2)
          .map((part) => part.name)
          .join(' + ')
          .slice(0, NAME_MOST),
      parts: [...core.map(({ partId, priceMinor }) => ({ partId, priceMinor })), ...around],
    })
  }
  if (platforms.length === 0) missing(platformField(0, 'board'), W.missing.platforms)

  const wanted = view.titles.flatMap(({ id }) => {
    const settingId = textOf(typed, titleField(id))
    return settingId === undefined ? [] : [{ titleId: id, settingId, weight: 1 }]
  })
  const [firstTitle] = view.titles
  if (wanted.length === 0 && firstTitle !== undefined) missing(titleField(firstTitle.id), W.missing.titles)

  const refreshHz = read('refresh', number(1, 1000, 'Hz'))
  const value = {
    ...{ platforms, wanted, display: refreshHz === undefined ? {} : { refreshHz } },
    ...{ targetFps: read('target', number(1, 1000, 'FPS')), upToMinor: read('upTo', money) },
    scenario: {
      pricesFallPct: read('fall', number(0, 90, '%')),
      heavierPct: read('heavier', number(0, 90, '%')),
      years: read('years', whole(0, 10)),
    },
  }
  const name = read('name', line(100)) ?? platforms.map((one) => one.name).join(', ')
  if (problems.length > 0) return failed(...(problems as [Problem, ...Problem[]]))
  const checked = checkReachAsk(value)
  if (!checked.ok) return failed(...inForm(checked.problems, view, value))
  return ok({ asked: { ask: checked.value, typed: [...own.values()] }, name })
}

const FIELD_OF: Readonly<Record<string, string>> = {
  ...{ targetFps: 'target', upToMinor: 'upTo', 'display.refreshHz': 'refresh' },
  ...{ 'scenario.pricesFallPct': 'fall', 'scenario.heavierPct': 'heavier', 'scenario.years': 'years' },
}

/** The field of the form that a field of the ask came from. */
export function inForm(
  problems: readonly Problem[],
  { titles }: LooksView,
  { wanted }: { readonly wanted: readonly { readonly titleId: string }[] },
): [Problem, ...Problem[]] {
  return problems.map((problem) => {
    const [, which, n, what] =
      /^(platforms|wanted)\.(\d+)\.?(name|parts\.0|parts\.1|parts\.2)?/.exec(problem.field) ?? []
    if (which === 'platforms') {
      const kind = CORE_KINDS[Number(/^parts\.(\d)$/.exec(what ?? '')?.[1] ?? 0)] ?? 'board'
      return { ...problem, field: platformField(Number(n), what === 'name' ? 'name' : kind) }
    }
    if (which === 'wanted') {
      const titleId = wanted[Number(n)]?.titleId ?? titles[0]?.id ?? ''
      return { ...problem, field: titleField(titleId) }
    }
    return { ...problem, field: FIELD_OF[problem.field] ?? problem.field }
  }) as [Problem, ...Problem[]]
}
