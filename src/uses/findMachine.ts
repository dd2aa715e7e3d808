import { listMachineRecords, listMachines, type MachineLine } from '../store/machines.ts'
import type { Db } from '../store/open.ts'

const fold = (text: string): string => text.trim().toLocaleLowerCase('und')

/** The tag as it is kept, whatever its case as typed; undefined when no machine has it. An exact one comes first. */
export async function findTag(db: Db, typed: string): Promise<string | undefined> {
  const tags = (await listMachineRecords(db)).map(({ tag }) => tag)
  if (tags.includes(typed)) return typed
  const alike = tags.filter((tag) => fold(tag) === fold(typed))
  return alike.length === 1 ? alike[0] : undefined
}

/**
 * The machines a person may mean: the one with that tag, else those whose owner has exactly that name, else those
 * with that text in their owner's name.
 */
export async function machinesMeant(db: Db, typed: string): Promise<readonly MachineLine[]> {
  const tag = await findTag(db, typed)
  const lines = await listMachines(db)
  if (tag !== undefined) return lines.filter((line) => line.tag === tag)
  const sought = fold(typed)
  if (sought === '') return []
  const owned = lines.filter((line) => fold(line.ownerName ?? '').includes(sought))
  const exact = owned.filter((line) => fold(line.ownerName ?? '') === sought)
  return exact.length > 0 ? exact : owned
}
