import { type MachineLine, searchMachines, tagsLike } from '../store/machines.ts'
import type { Db } from '../store/open.ts'

const fold = (text: string): string => text.trim().toLocaleLowerCase('und')

/** The tag as it is kept, whatever its case as typed; undefined when no machine has it. An exact one comes first. */
export async function findTag(db: Db, typed: string): Promise<string | undefined> {
  const alike = await tagsLike(db, typed)
  return alike.length === 1 ? alike[0] : undefined
}

/**
 * The machines a person may mean: the one with that tag, else those whose owner has exactly that name, else those
 * with that text in their owner's name.
 */
export async function machinesMeant(db: Db, typed: string): Promise<readonly MachineLine[]> {
  const tag = await findTag(db, typed)
  const sought = fold(typed)
  if (sought === '') return []
  const { lines } = await searchMachines(db, { query: tag ?? typed })
  if (tag !== undefined) return lines.filter((line) => line.tag === tag)
  const owned = lines.filter((line) => fold(line.ownerName ?? '').includes(sought))
  const exact = owned.filter((line) => fold(line.ownerName ?? '') === sought)
  return exact.length > 0 ? exact : owned
}
