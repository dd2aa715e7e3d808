import type { Change } from '../core/build.ts'
import { type PartSound, type Sound, soundAfter, soundOfPart, tooLoudAbove } from '../core/ranking/quiet.ts'
import type { Figures } from './figures.ts'
import { fill, formOf } from './say.ts'
import { wordsIn } from './tables.ts'

/** The level of a machine as it is written, with no digit more than a meter shows. */
const levelIn = (figures: Figures, dba: number): string =>
  fill(wordsIn(figures.language).quiet.level, { dba: figures.decimal(dba) }).replaceAll(' dB', '\u00a0dB')

/**
 * What is said of how loud a machine is after a change, for somebody who asked for quiet: what was measured, held against what
 * counts as quiet and against the machine's own level; what was not measured is told as that. None where nothing heard goes in.
 * `told` are parts of which it was said already, further up; the parts of this change join them.
 */
export function saySound(
  change: Pick<Change, 'add'>,
  sound: Sound | undefined,
  figures: Figures,
  partName: (id: string) => string,
  told: Set<string> = new Set(),
): string[] {
  const after = sound && soundAfter(change, sound)
  if (sound === undefined || after === undefined) return []
  const w = wordsIn(figures.language).quiet
  const names = after.untoldIds.map(partName)
  const lists = new Intl.ListFormat(figures.lang, { type: 'conjunction' })
  return [
    ...after.measured.flatMap((one) => {
      if (told.has(one.partId)) return [fill(w.above, { part: partName(one.partId) })]
      const isFirst = told.size === 0
      told.add(one.partId)
      return measuredLines(one, sound, figures, partName, isFirst)
    }),
    ...(names.length === 0 ? [] : [fill(w.untold, { parts: lists.format(names) })]),
  ]
}

function measuredLines(
  { partId, lowestDba, highestDba, runIds }: PartSound,
  { quietDba, own }: Sound,
  figures: Figures,
  partName: (id: string) => string,
  isFirst: boolean,
): string[] {
  const w = wordsIn(figures.language).quiet
  const level = (dba: number) => levelIn(figures, dba)
  const range =
    lowestDba === highestDba
      ? level(lowestDba)
      : fill(w.range, { low: figures.decimal(lowestDba), high: figures.decimal(highestDba) }).replaceAll(
          ' dB',
          '\u00a0dB',
        )
  const rules = new Intl.PluralRules(figures.lang)
  const count = figures.number(runIds.length)
  const lines = [fill(formOf(w.measured, runIds.length, rules), { count, part: partName(partId), range })]
  if (quietDba !== undefined) {
    const line = highestDba <= quietDba ? w.quiet : lowestDba > quietDba ? w.notQuiet : w.someLoud
    lines.push(fill(line, { quiet: level(quietDba) }))
  }
  if (own === undefined) return isFirst ? [...lines, w.yoursUnknown] : lines
  const against =
    lowestDba > own.dba ? w.louderThanYours : highestDba <= own.dba ? w.notLouderThanYours : w.yours
  return [...lines, fill(against, { own: level(own.dba) })]
}

/** Why parts were left out for their sound: what they were measured at, and against what that was held. */
export function sayTooLoud(
  partIds: readonly string[],
  sound: Sound,
  figures: Figures,
  partName: (id: string) => string,
): string[] {
  const w = wordsIn(figures.language).quiet
  const told = partIds.flatMap((id) => soundOfPart(sound, id) ?? [])
  const above = tooLoudAbove(sound)
  if (told.length === 0 || above === undefined) return []
  const isOwn = sound.own?.dba === above
  return [
    ...told.map((one) =>
      fill(w.leftOut, { part: partName(one.partId), low: levelIn(figures, one.lowestDba) }),
    ),
    isOwn
      ? fill(w.limitOwn, { own: levelIn(figures, above) })
      : fill(w.limit, { quiet: levelIn(figures, above) }),
  ]
}
