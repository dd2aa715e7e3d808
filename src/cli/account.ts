import { EXIT, failed, type Result } from '../problem.ts'
import type { Store } from '../store/open.ts'
import {
  disableAccount,
  enableAccount,
  findAccount,
  newCodeFor,
  signOutAccount,
  viewAccounts,
} from '../uses/access/accounts.ts'
import type { Command, Flags, Terminal } from './command.ts'
import { printJson, report } from './command.ts'

type Act = (store: Store, id: string, at: string, by: string) => Promise<Result<{ readonly name: string }>>

/** Who did it, in the access log. */
const BY = 'the terminal'

/** What is done with one account. Whoever can run this can read the database too, so no password is asked for. */
const ACTS: Readonly<Record<string, { readonly act: Act; readonly says: (name: string) => string }>> = {
  disable: { act: disableAccount, says: (name) => `${name} is closed, and signed out everywhere.` },
  enable: { act: enableAccount, says: (name) => `${name} is open again, with the password it had.` },
  'sign-out': { act: signOutAccount, says: (name) => `${name} is signed out everywhere.` },
}

const ALLOWED = ['list', 'code', ...Object.keys(ACTS)].join(', ')

export const accountCommand: Command = {
  name: 'account',
  operands: 'DO [NAME]',
  says: 'Accounts: list; or with a NAME: code (for a new password), disable, enable, sign-out (everywhere).',
  options: [],
  count: [1, 2],
  run: async ([what = '', name], flags, terminal) => {
    if (what === 'list' && name === undefined) return list(flags, terminal)
    const known = Object.hasOwn(ACTS, what) ? ACTS[what] : undefined
    if (what !== 'code' && known === undefined)
      return wrong('DO', what, `takes one of: ${ALLOWED}.`, flags, terminal)
    if (name === undefined)
      return wrong('NAME', undefined, 'is missing. stillfits account list shows every name.', flags, terminal)
    const store = await terminal.openStore()
    const found = await findAccount(store, name)
    if (!found.ok) return report(found.problems, flags, terminal)
    if (known === undefined) return code(store, found.value.id, flags, terminal)
    const done = await known.act(store, found.value.id, terminal.now(), BY)
    if (!done.ok) return report(done.problems, flags, terminal)
    if (flags.json) printJson({ name: done.value.name, done: what }, terminal)
    else terminal.out(`${known.says(done.value.name)}\n`)
    return EXIT.done
  },
}

const wrong = (field: string, got: string | undefined, next: string, flags: Flags, terminal: Terminal) =>
  report(failed({ code: 'not allowed', field, got, allowed: ALLOWED, next }).problems, flags, terminal)

async function list(flags: Flags, terminal: Terminal): Promise<number> {
  const lines = await viewAccounts(await terminal.openStore(), terminal.now())
  if (flags.json) printJson(lines, terminal)
  else if (lines.length === 0)
    terminal.out('Nobody has an account yet. npm start prints the code that makes the first one.\n')
  else
    for (const { name, role, disabledAt, hasPassword, browsers } of lines) {
      const open = hasPassword ? `signed in at ${browsers}` : 'no password yet'
      terminal.out(`${name}: ${role}, ${disabledAt === undefined ? open : 'closed'}\n`)
    }
  return EXIT.done
}

async function code(store: Store, id: string, flags: Flags, terminal: Terminal): Promise<number> {
  const made = await newCodeFor(store, id, terminal.now(), BY)
  if (!made.ok) return report(made.problems, flags, terminal)
  const { name, code: secret, expiresAt } = made.value
  if (flags.json) printJson({ name, code: secret, expiresAt }, terminal)
  else
    terminal.out(
      `${secret}\n${name} chooses a new password with it at /welcome. It holds once, until ${expiresAt}.\n`,
    )
  return EXIT.done
}
