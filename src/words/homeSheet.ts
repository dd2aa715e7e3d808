import { type HomeStep, homeSteps } from '../core/job/homeSteps.ts'
import type { JobStepLine } from '../core/job/job.ts'
import type { Language } from '../core/language.ts'
import { sayCaution } from './cautions.ts'
import { sayChecklistStep, sayJobWhat } from './job.ts'
import { curly, fill, oneLine } from './say.ts'
import { wordsIn } from './tables.ts'
import { plainSpaces } from './wrap.ts'

/** What an owner who fits the parts at home has to know of exactly this job, ready to be shown, printed or copied. */
export type HomeSheet = {
  readonly title: string
  readonly about: string
  /** Works that are not for the owner's hands; absent where there are none. */
  readonly ours?: { readonly head: string; readonly says: string } | undefined
  readonly head: string
  readonly steps: readonly { readonly what: string; readonly cautions: readonly string[] }[]
  /** How it ends, and the way out. */
  readonly end: readonly string[]
  readonly print: string
}

/** Undefined for a job in which an owner has nothing to do. */
export function homeSheetOf(
  tag: string,
  steps: readonly JobStepLine[],
  partName: (id: string) => string,
  language: Language = 'en',
): HomeSheet | undefined {
  const w = wordsIn(language).homeSheet
  const all = homeSteps(steps)
  const own = all.filter(({ by }) => by === 'owner')
  const ours = all.filter(({ by }) => by === 'shop')
  if (own.length === 0) return undefined
  const names = { partName, titleName: (id: string) => id, settingName: (id: string) => id }
  const say = (step: HomeStep) => oneLine(sayChecklistStep(step, names, language))
  const isOpened = own.some(({ what }) => what === 'opening')
  return {
    title: w.title,
    about: fill(w.about, { tag: oneLine(tag), what: oneLine(sayJobWhat(steps, partName, language)) }),
    ...(ours.length > 0 && {
      ours: { head: w.oursHead, says: fill(w.ours, { works: ours.map(say).join(', ') }) },
    }),
    head: w.stepsHead,
    steps: own.map((step) => ({
      what: say(step),
      cautions: step.cautions.map((id) => curly(sayCaution(id, language).long)),
    })),
    end: [...(isOpened ? [w.close, w.after] : []), w.tell, w.wayOut],
    print: w.print,
  }
}

/** The same as plain text to send along with the parts. */
export function homeSheetText({ title, about, ours, head, steps, end }: HomeSheet): string {
  const blocks = [
    [`${title}: ${about}`],
    ...(ours === undefined ? [] : [[ours.says]]),
    [`${head}:`],
    ...steps.map(({ what, cautions }, i) => [`${i + 1}. ${what}`, ...cautions.map((text) => `- ${text}`)]),
    end,
  ]
  return plainSpaces(blocks.map((lines) => lines.join('\n')).join('\n\n'))
}
