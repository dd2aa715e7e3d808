import { isIP } from 'node:net'
import type { Context } from 'hono'
import { originOf } from './access/peer.ts'
import type { Web } from './frame.ts'
import { isLoopback } from './hosts.ts'

/** Where the owner finds the page: the public address where one is set, else where this page was asked for. */
export const ownerUrl = (c: Context, { options }: Web, token: string): string =>
  `${options.ownerUrl ?? originOf(c, options.proxies ?? [])}/o/${token}`

/** Where whoever reads a case label finds the machine's facts. */
export const labelUrl = (c: Context, { options }: Web, code: string): string =>
  `${options.ownerUrl ?? originOf(c, options.proxies ?? [])}/l/${code}`

/** Addresses of one network: RFC 1918, 3; RFC 3927; RFC 6598 (shared by a provider); RFC 4193 and RFC 4291, 2.5.6. */
const LOCAL_ADDRESS =
  /^(?:10\.|192\.168\.|172\.(?:1[6-9]|2\d|3[01])\.|169\.254\.|100\.(?:6[4-9]|[7-9]\d|1[01]\d|12[0-7])\.|f[cd][0-9a-f]{2}:|fe[89ab][0-9a-f]:)/

/** Names of one network: RFC 6762, 3 (`local`); RFC 8375 (`home.arpa`); `internal` is reserved by ICANN; `lan` is common practice. */
const LOCAL_NAME = /^[^.]+$|\.(?:local|home\.arpa|internal|lan)$/

/** From where a link can be opened at all. */
export function reachOf(link: string): 'this computer' | 'this network' | 'anywhere' {
  const name = new URL(link).hostname.toLowerCase()
  if (isLoopback(name)) return 'this computer'
  const bare = name.replaceAll(/[[\]]/g, '')
  const isLocal = isIP(bare) === 0 ? LOCAL_NAME.test(bare) : LOCAL_ADDRESS.test(bare)
  return isLocal ? 'this network' : 'anywhere'
}

/** Beside a link that the owner's phone cannot open from home: what to set. */
export const ReachNote = ({ link }: { link: string | undefined }) => {
  const reach = link === undefined ? 'anywhere' : reachOf(link)
  return reach === 'anywhere' ? null : (
    <p class="soft">
      This link works {reach === 'this computer' ? 'on this computer' : 'in this network'} alone, not on an
      owner’s phone at home. <code>STILLFITS_OWNER_URL</code> says where owners reach it; the README tells
      how.
    </p>
  )
}
