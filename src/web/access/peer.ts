import { isIPv6 } from 'node:net'
import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context } from 'hono'
import type { From } from '../hosts.ts'

/** An IPv4 address that came in over IPv6 (RFC 4291, 2.5.5.2) is the same address. */
const plain = (address: string): string => address.trim().replace(/^::ffff:(?=\d+\.)/i, '')

/** Where the connection comes from; '' where there is none, as in a test. */
function peerOf(c: Context): string {
  // Without a server there is no connection to ask about.
  if (c.env === undefined || !('incoming' in c.env || 'server' in c.env)) return ''
  return plain(getConnInfo(c).remote.address ?? '')
}

const isFromProxy = (c: Context, proxies: readonly string[]): boolean => proxies.includes(peerOf(c))

const listed = (header: string | undefined): string[] =>
  (header ?? '')
    .split(',')
    .map(plain)
    .filter((entry) => entry !== '')

/**
 * The computer that asks; '' where there is no connection. Only a proxy that the settings name is believed about others;
 * of what it was told itself, only the last hop is its own word.
 */
function clientOf(c: Context, proxies: readonly string[]): string {
  const peer = peerOf(c)
  if (!proxies.includes(peer)) return peer
  const hops = listed(c.req.header('x-forwarded-for')).reverse()
  return hops.find((hop) => !proxies.includes(hop)) ?? peer
}

/**
 * Who is counted as one when tries are counted. Of an IPv6 address the network counts: one person has all of it
 * (RFC 6177).
 */
export const addressOf = (c: Context, proxies: readonly string[]): string => networkOf(clientOf(c, proxies))

/** Whether a request names its host twice (RFC 9112, 3.2): a proxy in front may have looked at the other one. */
export function isHostTwice(c: Context): boolean {
  const raw: unknown = c.env?.incoming?.rawHeaders
  return (
    Array.isArray(raw) &&
    raw.filter((text, n) => n % 2 === 0 && String(text).toLowerCase() === 'host').length > 1
  )
}

/** RFC 1122, 3.2.1.3; RFC 4291, 2.5.3. */
const LOOPBACK = /^(?:127(?:\.\d{1,3}){3}|::1|)$/

/** Where a request comes from. A test, which has no connection, is this computer. */
export function fromOf(c: Context, proxies: readonly string[]): From {
  if (LOOPBACK.test(clientOf(c, proxies))) return 'here'
  return isFromProxy(c, proxies) ? 'proxy' : 'network'
}

/** The first 64 bits of an IPv6 address; any other as it is. */
function networkOf(address: string): string {
  if (!isIPv6(address)) return address
  const [head = '', tail] = address.split('::')
  const groups = (text: string | undefined) => (text ? text.split(':') : [])
  const [left, right] = [groups(head), groups(tail)]
  const zeros = tail === undefined ? 0 : 8 - left.length - right.length
  return [...left, ...Array<string>(Math.max(0, zeros)).fill('0'), ...right]
    .slice(0, 4)
    .map((group) => group.toLowerCase().replace(/^0+(?=.)/, ''))
    .join(':')
}

/** Whether the browser's own connection is encrypted: a proxy that the settings name says so. */
export const isSecure = (c: Context, proxies: readonly string[]): boolean =>
  isFromProxy(c, proxies) && listed(c.req.header('x-forwarded-proto')).at(-1)?.toLowerCase() === 'https'

/** The origin under which the browser asked. */
export function originOf(c: Context, proxies: readonly string[]): string {
  const { host, protocol } = new URL(c.req.url)
  return `${isSecure(c, proxies) ? 'https:' : protocol}//${host}`
}
