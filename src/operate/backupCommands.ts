import { EXIT, sayProblem } from '../problem.ts'
import type { DatabaseContents } from '../store/databaseCopy.ts'
import type { Store } from '../store/open.ts'
import { lookAtBackup, type RestoreFailure, restore } from '../store/restore.ts'
import { backUp } from '../uses/backups.ts'
import { sayCopyFailure } from '../words/backups.ts'
import { RESTORE_EN as W } from '../words/en/backups.ts'
import { fill } from '../words/say.ts'

const write = (text: string): void => void process.stdout.write(`${text}\n`)
const json = (value: unknown): void => write(JSON.stringify(value, null, 2))

/** `stillfits backup FOLDER` */
export async function backupCommand(
  store: Store,
  databasePath: string | undefined,
  folder: string,
  asJson: boolean,
): Promise<number> {
  const made = await backUp(store, { databasePath }, folder, new Date().toISOString())
  if (!made.ok) {
    if (asJson) json({ problems: made.problems })
    else process.stderr.write(`${made.problems.map(sayProblem).join('\n')}\n`)
    return EXIT.fault
  }
  const { path, bytes, rows, schemaVersion, at } = made.value
  if (asJson) json({ path, bytes, rows, schemaVersion, at, rowsOf: made.value.rowsOf })
  else
    write(
      `${path}\n${fill(W.made, { rows: String(rows), bytes: String(bytes), version: String(schemaVersion) })}\n${W.people}`,
    )
  return EXIT.done
}

/** `stillfits restore FILE`; with `look` nothing is changed. */
export async function restoreCommand(
  databasePath: string | undefined,
  file: string,
  { look, asJson }: { readonly look: boolean; readonly asJson: boolean },
): Promise<number> {
  const refuse = (failure: RestoreFailure): number => {
    const says = sayRestoreFailure(failure)
    if (asJson) json({ problems: [{ code: failure, field: 'FILE', next: says }] })
    else process.stderr.write(`${file}: ${says}\n`)
    return failure === 'no such file' ? EXIT.notFound : EXIT.badInput
  }
  if (databasePath === undefined) return refuse('on a server')
  const at = new Date().toISOString()
  if (look) {
    const looked = await lookAtBackup(file, databasePath, at)
    if (!looked.ok) return refuse(looked.failure)
    if (asJson) json(looked.value)
    else write(contentLines(looked.value).join('\n'))
    return EXIT.done
  }
  const done = await restore(file, databasePath, at)
  if (!done.ok) return refuse(done.failure)
  if (asJson) {
    json({ ...done.contents, broughtToVersion: done.schemaVersion, keptAt: done.keptAt })
    return EXIT.done
  }
  write(contentLines(done.contents).join('\n'))
  if (done.contents.schemaVersion < done.schemaVersion)
    write(fill(W.brought, { from: String(done.contents.schemaVersion), to: String(done.schemaVersion) }))
  write(fill(W.restored, { path: databasePath }))
  if (done.keptAt !== undefined) write(fill(W.kept, { path: done.keptAt }))
  write(W.eraseAgain)
  return EXIT.done
}

/** What a person knows a shop by; tables that only the program knows are in the sum. */
const SAID = ['machines', 'customers', 'questions', 'jobs', 'runs', 'photos', 'mails', 'accounts'] as const

function contentLines({ rowsOf, rows, newestAt, schemaVersion }: DatabaseContents): string[] {
  return [
    ...SAID.map((table) => `${table}: ${rowsOf[table] ?? 0}`),
    fill(W.all, { rows: String(rows), version: String(schemaVersion) }),
    newestAt === undefined ? W.nothingDated : fill(W.newest, { at: newestAt }),
  ]
}

const sayRestoreFailure = (failure: RestoreFailure): string =>
  failure === 'no such file' || failure === 'in use' || failure === 'the same file'
    ? W.failures[failure]
    : sayCopyFailure(failure)
