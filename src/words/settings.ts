import type { Setting } from '../core/gain/run.ts'
import type { Language } from '../core/language.ts'
import { fill } from './say.ts'
import { wordsIn } from './tables.ts'

/** A setting in one line: what changes the picture, and nothing that is off. */
export function settingText(setting: Setting, language: Language = 'en'): string {
  if (language !== 'en') return settingIn(setting, language)
  return [
    `${setting.widthPx}×${setting.heightPx}`,
    setting.preset,
    setting.rayTracing ? 'ray tracing' : undefined,
    setting.upscaler === undefined ? undefined : `upscaler ${setting.upscaler}`,
    setting.frameGeneration ? 'frame generation' : undefined,
    setting.capFps === undefined ? undefined : `capped at ${setting.capFps} FPS`,
    setting.lowered === undefined ? undefined : `lower ${setting.lowered.what}`,
  ]
    .filter((part) => part !== undefined)
    .join(', ')
}

/** The same in a language of owners. */
function settingIn(setting: Setting, language: Language): string {
  const { setting: w, presets, sliders } = wordsIn(language).answer
  const { widthPx, heightPx, preset, rayTracing, upscaler, frameGeneration, capFps, lowered } = setting
  return [
    fill(w.size, {
      width: String(widthPx),
      height: String(heightPx),
      preset: presets[preset.toLowerCase()] ?? preset,
    }),
    ...(rayTracing ? [w.rayTracing] : []),
    ...(upscaler === undefined ? [] : [fill(w.upscaler, { mode: upscaler })]),
    ...(frameGeneration ? [w.frameGeneration] : []),
    ...(capFps === undefined ? [] : [fill(w.cap, { fps: `${capFps}\u00a0FPS` })]),
    ...(lowered === undefined
      ? []
      : [fill(w.lowered, { what: sliders[lowered.what.toLowerCase()] ?? lowered.what })]),
  ].join(', ')
}
