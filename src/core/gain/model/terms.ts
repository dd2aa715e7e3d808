import { linkGBps } from '../../facts/links.ts'
import type { Fitted, MemoryAsItRuns, Setting, Title } from '../run.ts'
import type { GainPart } from './data.ts'
import {
  GRAPHICS_MEMORY_BY_PIXELS,
  GRAPHICS_MEMORY_SHARE,
  type KindPrior,
  type Priors,
  REFERENCE_LINK,
  REFERENCE_RATE_MTS,
} from './priors.ts'

/** A coefficient of a title times a figure, on the processor side (a) or the graphics side (b). */
export type Term = { readonly kind: string; readonly side: 'a' | 'b'; readonly by: number }

const PIXELS_1080P = 1920 * 1080

/** Preset names are the shop's; these four are known to the prior. */
const presetOf = ({ preset }: Setting): string => preset.trim().toLowerCase()
const PRESET_KINDS: Readonly<Record<string, readonly [string, string]>> = {
  low: ['cLow', 'gLow'],
  medium: ['cMedium', 'gMedium'],
  ultra: ['cUltra', 'gUltra'],
}

/** `ln(pixels / (1920 x 1080))`. */
export const pixelsOf = ({ widthPx, heightPx }: Setting): number =>
  Math.log((widthPx * heightPx) / PIXELS_1080P)

/** Pictures that want about as much graphics memory. */
export function appetiteOf(setting: Setting): 'less' | 'usual' | 'more' {
  const share = own(GRAPHICS_MEMORY_SHARE, presetOf(setting)) ?? 1
  if (share > 1 || setting.rayTracing || pixelsOf(setting) > MANY_PIXELS) return 'more'
  return share < 1 ? 'less' : 'usual'
}
const MANY_PIXELS = 1

/** What a picture costs each side, against 1920 x 1080 at high without anything else. */
export function pictureTerms(setting: Setting): Term[] {
  const preset = presetOf(setting)
  const [a, b] = own(PRESET_KINDS, preset) ?? [`cPreset:${preset}`, `gPreset:${preset}`]
  const terms: Term[] = []
  if (preset !== 'high') terms.push({ kind: a, side: 'a', by: 1 }, { kind: b, side: 'b', by: 1 })
  const pixels = pixelsOf(setting)
  if (pixels !== 0) terms.push({ kind: 'pix', side: 'b', by: pixels })
  if (setting.rayTracing) terms.push({ kind: 'cRt', side: 'a', by: 1 }, { kind: 'gRt', side: 'b', by: 1 })
  if (setting.upscaler !== undefined)
    terms.push({ kind: `upscaler:${setting.upscaler.trim().toLowerCase()}`, side: 'b', by: 1 })
  if (setting.lowered !== undefined) {
    const what = setting.lowered.what.trim().toLowerCase()
    terms.push({ kind: `lowered:${what}`, side: 'b', by: 1 })
  }
  return terms
}

/** What memory costs the processor side: its rate against the usual one, one channel, what is missing. */
export function memoryTerms(
  { memoryType, rateMts, channels, totalGB }: MemoryAsItRuns,
  title: Title,
): Term[] {
  const terms: Term[] = []
  const rate = Math.log((own(REFERENCE_RATE_MTS, memoryType) ?? rateMts) / rateMts)
  if (rate !== 0) terms.push({ kind: 'rate', side: 'a', by: rate })
  if (channels === 1) terms.push({ kind: 'single', side: 'a', by: 1 })
  const missing = missingShare(title.memoryGB, totalGB)
  if (missing > 0) terms.push({ kind: 'ramDef', side: 'a', by: missing })
  return terms
}

/**
 * What the card's memory and its link cost the graphics side: graphics memory that is missing, which is fetched over the
 * link in every frame; a link narrower than the card's own; large BAR, where somebody looked.
 */
export function linkTerms(
  { link, largeBar }: Fitted,
  card: GainPart | undefined,
  title: Title,
  setting: Setting,
): Term[] {
  const terms: Term[] = []
  const rate = linkGBps(link.gen, link.lanes)
  const missing = missingShare(wantedGraphicsGB(title, setting), card?.memoryGB)
  if (missing > 0) {
    terms.push({ kind: 'vramDef', side: 'b', by: missing })
    const missingGB = missing * (wantedGraphicsGB(title, setting) as number)
    const fetched = (FETCHED_SHARE * missingGB) / (rate ?? REFERENCE_GBPS)
    terms.push({ kind: 'linkShort', side: 'b', by: Math.log1p(fetched / USUAL_FRAME_S) })
  }
  const own = card?.pcieGen && card.pcieLanes ? linkGBps(card.pcieGen, card.pcieLanes) : undefined
  if (rate !== undefined && own !== undefined && rate < own)
    terms.push({ kind: 'linkNarrow', side: 'b', by: Math.log(own / rate) })
  if (largeBar !== undefined) terms.push({ kind: 'largeBar', side: 'b', by: largeBar ? 0.5 : -0.5 })
  return terms
}

/** Of what is missing, so much is touched in a frame, and a frame takes so long (common practice, from memory). */
const FETCHED_SHARE = 0.03
const USUAL_FRAME_S = 0.012

const REFERENCE_GBPS = linkGBps(REFERENCE_LINK.gen, REFERENCE_LINK.lanes) ?? Number.NaN

const wantedGraphicsGB = ({ graphicsMemoryGB }: Title, setting: Setting): number | undefined =>
  graphicsMemoryGB === undefined
    ? undefined
    : graphicsMemoryGB *
      (own(GRAPHICS_MEMORY_SHARE, presetOf(setting)) ?? 1) *
      ((setting.widthPx * setting.heightPx) / PIXELS_1080P) ** GRAPHICS_MEMORY_BY_PIXELS

/** Share of what is wanted that is not there; 0 while either is unknown. */
const missingShare = (wanted: number | undefined, there: number | undefined): number =>
  wanted === undefined || there === undefined || !(wanted > 0) ? 0 : Math.max(0, (wanted - there) / wanted)

/** The prior of a kind of coefficient; modes, presets and sliders have theirs by name. */
export function priorOf(kind: string, priors: Priors): KindPrior {
  const known = own(priors.kinds, kind)
  if (known !== undefined) return known
  const colon = kind.indexOf(':')
  const [family, name] = [kind.slice(0, colon), kind.slice(colon + 1)]
  if (family === 'upscaler') return own(priors.upscalers, name) ?? priors.otherUpscaler
  if (family === 'cPreset') return priors.otherPresetProcessor
  if (family === 'gPreset') return priors.otherPresetGraphics
  if (family === 'lowered') return priors.lowered
  throw new RangeError(`no prior for ${kind}`)
}

/** A row of a table whose keys people type: `constructor` is no row. */
const own = <T>(table: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined
