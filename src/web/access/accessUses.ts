import type { accessOf } from '../../uses/access/accessOf.ts'

/** What signing in, accounts and keys ask of the rest of the program. Fields of its problems: those of the forms. */
export type AccessUses = ReturnType<typeof accessOf>
