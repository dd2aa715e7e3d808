import type { HistoryDay } from '../core/machineHistory.ts'
import type { Part } from '../core/part.ts'
import type { Figures } from './figures.ts'
import { sayKept, workName } from './job.ts'
import { sayValue } from './limits.ts'
import { KIND_WORDS } from './options.ts'
import { capital, curly, fill, oneLine } from './say.ts'
import { wordsIn } from './tables.ts'

/** A day of a machine's history in words, one sentence a line. */
export type HistorySaid = { readonly date: string; readonly lines: readonly string[] }

type Named = Pick<Part, 'kind' | 'name'>

/** What a kind of part is called in that language. */
const kindWord = (kind: Part['kind'], { language }: Figures): string =>
  language === 'en' ? KIND_WORDS[kind] : wordsIn(language).answer.kinds[kind]

/** A machine's history for its owner, the newest day first. */
export function sayHistory(
  days: readonly HistoryDay[],
  titleName: (id: string) => string,
  figures: Figures,
): HistorySaid[] {
  const { ownerHistory: w, limits } = wordsIn(figures.language)
  const parts = (list: readonly Named[]) =>
    list
      .map(({ kind, name }) => fill(w.part, { kind: kindWord(kind, figures), name: oneLine(name) }))
      .join(', ')
  const one = (line: string, list: readonly Named[]) =>
    list.length === 0 ? [] : [capital(fill(line, { parts: parts(list) }), figures.language)]
  return days.map(({ day, sold, partsIn, partsOut, limits: changed, jobs, isRead }) => ({
    date: figures.day(day),
    lines: [
      ...one(w.out, partsOut),
      ...one(w.in, partsIn),
      ...jobs.flatMap(({ works, kept, targetFps }) => [
        ...(works.length === 0
          ? []
          : [fill(w.works, { works: works.map((work) => workName(work, figures.language)).join(', ') })]),
        ...kept.map((promise) =>
          fill(w.promise, {
            title: oneLine(titleName(promise.promised.titleId)),
            says: sayKept(promise, figures, targetFps),
          }),
        ),
      ]),
      ...changed.map(({ key, value, before }) => {
        const values = { label: curly(limits[key].label), value: sayValue(key, value, figures) }
        return before === undefined
          ? fill(w.limit, values)
          : fill(w.limitWas, { ...values, before: sayValue(key, before, figures) })
      }),
      ...(isRead ? [w.read] : []),
      ...(sold === undefined ? [] : sold.length === 0 ? [w.soldBare] : one(w.sold, sold)),
    ],
  }))
}
