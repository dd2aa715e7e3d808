import type { HOME_SHEET_EN } from '../en/homeSheet.ts'
import type { JOB_EN } from '../en/job.ts'
import type { Translated } from '../translated.ts'

/** The German of the sheet for an owner who fits the parts at home. */
export const HOME_SHEET_DE: Translated<typeof HOME_SHEET_EN> = {
  title: 'Selbst einbauen',
  about: 'Für den Rechner {tag}: {what}. Lesen Sie alles durch, bevor Sie anfangen.',
  oursHead: 'Was wir vorher machen',
  ours: 'Nicht selbst machen: {works}. Bringen Sie den Rechner dafür vorbei, oder fragen Sie uns, bevor Sie anfangen.',
  stepsHead: 'In dieser Reihenfolge',
  close: 'Gehäuse schließen, alles wieder anschließen und den Rechner starten.',
  after:
    'Wenn er nicht startet: ausschalten, Netzstecker ziehen und uns schreiben. Nichts mit Gewalt hineindrücken.',
  tell: 'Sagen Sie uns, wenn es eingebaut ist und wie Ihre Spiele jetzt laufen: auf Ihrer Seite oder als Antwort.',
  wayOut: 'Doch lieber nicht? Hören Sie jederzeit auf und bringen Sie ihn vorbei. Wir machen es.',
  print: 'Damit Sie es neben sich haben, drucken Sie diese Seite.',
}

/** Steps of a checklist, as far as an owner meets them. */
export const JOB_STEPS_DE: Translated<(typeof JOB_EN)['steps']> = {
  opening: 'Rechner öffnen',
  work: '{what}',
  'take out': 'Ausbauen: {what}',
  fit: 'Einbauen: {what}',
  measure: 'Messen: {what}',
  'test what came out': 'Prüfen, was herauskam: {what}',
  settle: 'Preis abrechnen',
  'tell the owner': 'Bescheid geben',
}
