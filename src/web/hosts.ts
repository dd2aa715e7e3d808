/** Names and addresses of this computer: RFC 6761, 6.3; RFC 1122, 3.2.1.3; RFC 4291, 2.5.3. */
const LOOPBACK = /^(?:(?:.+\.)?localhost|127(?:\.\d{1,3}){3}|\[::1\])$/

/** An address instead of a name, as the URL Standard (3.5) writes it. */
const ADDRESS = /^(?:\d{1,3}(?:\.\d{1,3}){3}|\[[0-9a-f:.]+\])$/

/**
 * Which host names are ours: this computer's own, the one that is listened on, and those that were named. Any other
 * name may have been made to point here by whoever holds it (DNS rebinding), and its pages would count as our own.
 * Where every address is listened on, an address is ours too: it cannot be made to point anywhere.
 */
export function isOneOf(host: string, hosts: readonly string[]): (name: string) => boolean {
  const bare = (name: string) => name.toLowerCase().replaceAll(/[[\]]/g, '')
  const named = new Set([host, ...hosts].map(bare))
  const isEverywhere = host === '0.0.0.0' || host === '::'
  return (typed) => {
    const name = typed.toLowerCase()
    return LOOPBACK.test(name) || named.has(bare(name)) || (isEverywhere && ADDRESS.test(name))
  }
}

/** Whether what is listened on can be reached from this computer alone. */
export const isLoopback = (host: string): boolean =>
  LOOPBACK.test(host.includes(':') && !host.startsWith('[') ? `[${host}]` : host.toLowerCase())
