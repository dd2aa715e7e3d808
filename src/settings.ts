import { isIP } from 'node:net'
import { z } from 'zod'
import { type MailSettings, readMailSettings } from './mailSettings.ts'
import { failed, ok, type Result } from './problem.ts'

/** What the environment decides. Everything else is in the database. */
export type Settings = {
  /** libSQL URL of the database. */
  readonly databaseUrl: string
  /** What a server of the database asks for; a secret. */
  readonly databaseToken?: string | undefined
  readonly host: string
  /** Further host names under which the pages are asked for, such as that of a proxy in front. */
  readonly hosts: readonly string[]
  /** Origin under which owners reach their pages; that host name opens nothing else. */
  readonly ownerUrl?: string | undefined
  /** Addresses of proxies in front of us that end TLS; only their word on it, and on who asks, is taken. */
  readonly proxies: readonly string[]
  /** Absent: not set; then the shop is served on 8080 and the demo on 8081, so that both can run. */
  readonly port?: number | undefined
  readonly mail: MailSettings
  readonly backup: BackupSettings
  /** Undefined: a line for each request where standard output is no terminal. */
  readonly log?: 'requests' | 'faults' | undefined
  /** With it programs that watch can read figures at /metrics; without it nobody can. */
  readonly metricsToken?: string | undefined
}

/** Where copies of the database go, and when. */
export type BackupSettings = {
  /** Undefined: beside the database; `off`: none are made by themselves. */
  readonly folder?: string | undefined
  /** Hour of the day in the shop's time zone. */
  readonly hour: number
  readonly keep: number
  readonly warnDays: number
}

const DATABASE =
  'a libSQL URL without a token in it: file:PATH for a file, or libsql:, https:, http: for a server (its token: STILLFITS_DATABASE_TOKEN)'
const PORT = 'a whole number from 0 to 65535 (0: any free port)'
const HOST = 'a host name or address to listen on, such as 127.0.0.1'

const HOSTS = 'host names without port, with "," between, such as bench.lan'

/** Its escapes (`%20`) stand for something, and what names a server is a URL that holds no secret. */
function canBeRead(url: string): boolean {
  if (!/^(file:.+|(libsql|https?):\/\/[^/\s]+.*)$/.test(url)) return false
  try {
    return (
      decodeURIComponent(url) !== '' && (url.startsWith('file:') || (URL.canParse(url) && !holdsSecret(url)))
    )
  } catch {
    return false
  }
}

/** Addresses are told in messages and stand in lists of processes, where no secret belongs. */
const holdsSecret = (url: string): boolean => /auth_?token|:\/\/[^/?]*@/i.test(url)

const OWNER_URL = 'an address without a path, such as https://ask.example.com'

const PROXIES = 'IP addresses of your own proxies, with "," between, such as 127.0.0.1'

const addressesIn = (text: string): string[] => text.split(',').map((address) => address.trim())

const wholeNumber = (least: number, most: number, allowed: string) =>
  z
    .string()
    .regex(/^\d{1,4}$/, allowed)
    .transform(Number)
    .refine((n) => n >= least && n <= most, allowed)

const FOLDER = 'the path of a folder, or off'
const BACKUP_HOUR = 'a whole number from 0 to 23'
const BACKUP_KEEP = 'a whole number from 1 to 1000'
const BACKUP_WARN = 'a whole number of days from 1 to 365'

const LOG = 'requests or faults'
const DATABASE_TOKEN = 'what the server of the database gave you: letters, digits and signs without a space'
const METRICS_TOKEN = '16 to 200 letters, digits and signs without a space'

const VARIABLES = {
  STILLFITS_LOG: z.enum(['requests', 'faults'], LOG).optional(),
  STILLFITS_METRICS_TOKEN: z
    .string()
    .regex(/^[\x21-\x7e]{16,200}$/, METRICS_TOKEN)
    .optional(),
  STILLFITS_BACKUP_FOLDER: z
    .string()
    .refine((path) => !path.includes('\0'), FOLDER)
    .optional(),
  STILLFITS_BACKUP_HOUR: wholeNumber(0, 23, BACKUP_HOUR).default(3),
  STILLFITS_BACKUP_KEEP: wholeNumber(1, 1000, BACKUP_KEEP).default(14),
  STILLFITS_BACKUP_WARN_DAYS: wholeNumber(1, 365, BACKUP_WARN).default(3),
  STILLFITS_DATABASE: z.string().refine(canBeRead, DATABASE).default('file:data/stillfits.db'),
  STILLFITS_DATABASE_TOKEN: z
    .string()
    .regex(/^[\x21-\x7e]{1,8000}$/, DATABASE_TOKEN)
    .optional(),
  STILLFITS_PORT: z
    .string()
    .regex(/^\d{1,5}$/, PORT)
    .transform(Number)
    .refine((port) => port <= 65_535, PORT)
    .optional(),
  STILLFITS_HOST: z
    .string()
    .regex(/^[A-Za-z0-9.:_-]+$/, HOST)
    .default('127.0.0.1'),
  STILLFITS_HOSTS: z
    .string()
    .regex(/^[A-Za-z0-9._-]+(\s*,\s*[A-Za-z0-9._-]+)*$/, HOSTS)
    .transform((names) => names.split(',').map((name) => name.trim()))
    .default([]),
  STILLFITS_OWNER_URL: z
    .string()
    .regex(/^https?:\/\/[A-Za-z0-9._-]+(:\d{1,5})?\/?$/, OWNER_URL)
    .transform((url) => url.replace(/\/$/, ''))
    .optional(),
  STILLFITS_PROXY: z
    .string()
    .refine((text) => addressesIn(text).every((address) => isIP(address) !== 0), PROXIES)
    .transform(addressesIn)
    .default([]),
}

/** Their values are never repeated, not even where they are wrong. */
const SECRETS: readonly string[] = ['STILLFITS_METRICS_TOKEN', 'STILLFITS_DATABASE_TOKEN']

/** Settings from the environment. Empty counts as not set; each bad value names its variable and what is allowed. */
export function readSettings(env: Readonly<Record<string, string | undefined>>): Result<Settings> {
  const given = Object.fromEntries(
    Object.keys(VARIABLES).flatMap((name) => {
      const value = env[name]?.trim()
      return value === undefined || value === '' ? [] : [[name, value]]
    }),
  )
  const read = z.object(VARIABLES).safeParse(given)
  const mail = readMailSettings(env)
  if (read.success && mail.ok)
    return ok({
      mail: mail.value,
      log: read.data.STILLFITS_LOG,
      metricsToken: read.data.STILLFITS_METRICS_TOKEN,
      backup: {
        folder: read.data.STILLFITS_BACKUP_FOLDER,
        hour: read.data.STILLFITS_BACKUP_HOUR,
        keep: read.data.STILLFITS_BACKUP_KEEP,
        warnDays: read.data.STILLFITS_BACKUP_WARN_DAYS,
      },
      databaseUrl: read.data.STILLFITS_DATABASE,
      databaseToken: read.data.STILLFITS_DATABASE_TOKEN,
      port: read.data.STILLFITS_PORT,
      host: read.data.STILLFITS_HOST,
      hosts: read.data.STILLFITS_HOSTS,
      ownerUrl: read.data.STILLFITS_OWNER_URL,
      proxies: read.data.STILLFITS_PROXY,
    })
  return failed(
    ...(mail.ok ? [] : mail.problems),
    ...(read.error?.issues ?? []).map(({ path, message: allowed }) => {
      const field = String(path[0])
      return {
        code: 'not allowed',
        field,
        got: SECRETS.includes(field) || holdsSecret(given[field] ?? '') ? undefined : given[field],
        allowed,
        next: `Set it to ${allowed}.`,
      } as const
    }),
  )
}
