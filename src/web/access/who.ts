import type { Context } from 'hono'
import type { Right, Row, Scope } from './rights.ts'

/** Who is asking. `demo` is everybody who opens the demo shop on this computer. */
export type Who =
  | { readonly kind: 'owner' | 'staff'; readonly name: string; readonly accountId: string }
  | { readonly kind: 'token'; readonly name: string; readonly scopes: readonly Scope[] }
  | { readonly kind: 'demo'; readonly name: string }

declare module 'hono' {
  interface ContextVariableMap {
    who: Who | undefined
  }
}

/** Who is asking; undefined for a stranger. The guard sets it before any route. */
export const who = (c: Context): Who | undefined => c.get('who')

/** Whether this one may do what a route is for. Nobody may do what no row allows. */
export function mayDo(asker: Who | undefined, { may, scope }: Pick<Row, 'may' | 'scope'>): boolean {
  if (may === 'public' || may === 'owner link') return true
  if (asker === undefined) return false
  if (asker.kind === 'token') return scope !== undefined && asker.scopes.includes(scope)
  return ALLOWS[asker.kind].includes(may)
}

/** How somebody is called in the access log. */
export const nameOf = (asker: Who | undefined): string | undefined =>
  asker?.kind === 'token' ? `key ${asker.name}` : asker?.name

/** Whether this one may know who owns a machine and how they are reached. */
export const mayKnowPeople = (asker: Who | undefined): boolean =>
  asker !== undefined && (asker.kind !== 'token' || asker.scopes.includes('people'))

const ALLOWS: Record<Exclude<Who['kind'], 'token'>, readonly Right[]> = {
  staff: ['staff', 'own account'],
  owner: ['staff', 'own account', 'owner', 'accounts'],
  demo: ['staff', 'owner', 'token'],
}
