/** Names and addresses of this computer: RFC 6761, 6.3; RFC 1122, 3.2.1.3; RFC 4291, 2.5.3. */
const LOOPBACK = /^(?:(?:.+\.)?localhost|127(?:\.\d{1,3}){3}|\[::1\])$/

/** An address instead of a name, as the URL Standard (3.5) writes it. */
const ADDRESS = /^(?:\d{1,3}(?:\.\d{1,3}){3}|\[[0-9a-f:.]+\])$/

/** Where a request comes from: this computer, straight over the network, or through a proxy that the settings name. */
export type From = 'here' | 'network' | 'proxy'

/**
 * Which host names are ours: those that were named, and the one that is listened on. Any other name may have been made
 * to point here by whoever holds it (DNS rebinding), and its pages would count as our own. This computer's own names
 * are ours where it asks itself; anybody can send `Host: localhost`, and it would open what the address of owners does
 * not. Where every address is listened on, an address is ours too, because it cannot be made to point anywhere; not
 * through a proxy, which has a name.
 */
export function isOneOf(host: string, hosts: readonly string[]): (name: string, from: From) => boolean {
  const bare = (name: string) => name.toLowerCase().replaceAll(/[[\]]/g, '')
  const named = new Set([host, ...hosts].map(bare))
  const isEverywhere = host === '0.0.0.0' || host === '::'
  return (typed, from) => {
    const name = typed.toLowerCase()
    if (LOOPBACK.test(name)) return from === 'here'
    if (isEverywhere && ADDRESS.test(name)) return from !== 'proxy' || hosts.map(bare).includes(bare(name))
    return named.has(bare(name))
  }
}

/** Whether what is listened on can be reached from this computer alone. */
export const isLoopback = (host: string): boolean =>
  LOOPBACK.test(host.includes(':') && !host.startsWith('[') ? `[${host}]` : host.toLowerCase())
