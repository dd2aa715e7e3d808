import type { Problem, Result } from '../problem.ts'
import { failed, ok } from '../problem.ts'
import { type MachineLine, searchMachines, tagsLike } from '../store/machineSearch.ts'
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

const TAGS_NAMED = 12

const nobody = (got: string): Problem => ({
  code: 'unknown name',
  field: 'machineTag',
  got,
  next: 'No machine has this tag, and no owner has this name. Add the machine first, or look for it under Machines.',
})

function several(got: string, lines: readonly MachineLine[]): Problem {
  const named = lines.slice(0, TAGS_NAMED).map(({ tag, ownerName }) => `${tag} (${ownerName})`)
  const more = lines.length > TAGS_NAMED ? ` and ${lines.length - TAGS_NAMED} more` : ''
  const next = `could be ${lines.length} machines: ${named.join(', ')}${more}. Write the tag of one of them.`
  return { code: 'not allowed', field: 'machineTag', got, next }
}

/** The one machine meant by what was typed (`machinesMeant`); a problem of the field `machineTag` where it is none or several. */
export async function oneMachineMeant(db: Db, typed: string): Promise<Result<MachineLine>> {
  const meant = await machinesMeant(db, typed)
  const [machine] = meant
  if (machine === undefined) return failed(nobody(typed))
  return meant.length > 1 ? failed(several(typed, meant)) : ok(machine)
}
