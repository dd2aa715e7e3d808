import { z } from 'zod'
import type { SmtpServer } from './mail/transport/smtp.ts'
import { failed, ok, type Problem, type Result } from './problem.ts'

/** How mails leave, as the environment says. Without a server's name they are written as files and nothing leaves. */
export type MailSettings = {
  readonly folder: string
  /** At most so many mails a minute, over all processes with one database. */
  readonly perMinute: number
  readonly smtp?: SmtpServer | undefined
}

const NAME = 'a host name or address without port, such as mail.example.com'
const PORT = 'a whole number from 1 to 65535'
const SECURITY = 'tls, starttls or none (none for a server on this computer alone)'
const CONNECTIONS = 'a whole number from 1 to 20'
const RATE = 'a whole number from 1 to 6000'
const DOMAIN = 'a domain, such as example.com'
const SELECTOR = 'the name of the key in the domain’s DNS, such as mail2026'
const KEY = 'the private key as PEM text; its line ends may be written as \\n'
const PEM = /^-----BEGIN [A-Z ]*PRIVATE KEY-----\n[\s\S]+-----END [A-Z ]*PRIVATE KEY-----\s*$/

const numberFrom = (least: number, most: number, allowed: string) =>
  z
    .string()
    .regex(/^\d{1,5}$/, allowed)
    .transform(Number)
    .refine((n) => n >= least && n <= most, allowed)

const domain = (allowed: string) => z.string().regex(/^[A-Za-z0-9.-]{1,253}$/, allowed)

const VARIABLES = {
  STILLFITS_MAIL_FOLDER: z.string().default('data/mails'),
  STILLFITS_MAILS_PER_MINUTE: numberFrom(1, 6000, RATE).default(30),
  STILLFITS_SMTP_HOST: z
    .string()
    .regex(/^[A-Za-z0-9.:_-]{1,253}$/, NAME)
    .optional(),
  STILLFITS_SMTP_PORT: numberFrom(1, 65_535, PORT).optional(),
  STILLFITS_SMTP_SECURITY: z.enum(['tls', 'starttls', 'none'], SECURITY).default('tls'),
  STILLFITS_SMTP_USER: z.string().optional(),
  STILLFITS_SMTP_PASSWORD: z.string().optional(),
  STILLFITS_SMTP_CONNECTIONS: numberFrom(1, 20, CONNECTIONS).default(2),
  STILLFITS_DKIM_DOMAIN: domain(DOMAIN).optional(),
  STILLFITS_DKIM_SELECTOR: domain(SELECTOR).optional(),
  STILLFITS_DKIM_KEY: z
    .string()
    .transform((text) => text.replaceAll('\\n', '\n'))
    .refine((text) => PEM.test(text), KEY)
    .optional(),
}

const SCHEMA = z.object(VARIABLES)
type Read = z.infer<typeof SCHEMA>

/** Their values are never repeated, not even where they are wrong. */
const SECRETS: readonly string[] = ['STILLFITS_SMTP_PASSWORD', 'STILLFITS_SMTP_USER', 'STILLFITS_DKIM_KEY']

/** RFC 8314, 3.3: 465 with TLS from the first byte; RFC 6409, 3.1: 587 for submission. */
const PORTS = { tls: 465, starttls: 587, none: 25 } as const

const isHere = (host: string): boolean => /^(localhost|127(\.\d{1,3}){3}|::1)$/.test(host)

/** Settings of sending. Empty counts as not set; each bad value names its variable and what is allowed, no secret itself. */
export function readMailSettings(env: Readonly<Record<string, string | undefined>>): Result<MailSettings> {
  const given = Object.fromEntries(
    Object.keys(VARIABLES).flatMap((name) => {
      const value = env[name]?.trim()
      return value === undefined || value === '' ? [] : [[name, value]]
    }),
  )
  const read = SCHEMA.safeParse(given)
  if (!read.success)
    return failed(
      ...read.error.issues.map(({ path, message: allowed }): Problem => {
        const field = String(path[0])
        const got = SECRETS.includes(field) ? undefined : given[field]
        return { code: 'not allowed', field, got, allowed, next: `Set it to ${allowed}.` }
      }),
    )
  const v = read.data
  const together = togetherProblems(v)
  if (together.length > 0) return failed(...together)
  const shared = { folder: v.STILLFITS_MAIL_FOLDER, perMinute: v.STILLFITS_MAILS_PER_MINUTE }
  const host = v.STILLFITS_SMTP_HOST
  if (host === undefined) return ok(shared)
  const {
    STILLFITS_DKIM_DOMAIN: domain,
    STILLFITS_DKIM_SELECTOR: selector,
    STILLFITS_DKIM_KEY: privateKey,
  } = v
  const signs = domain !== undefined && selector !== undefined && privateKey !== undefined
  const security = v.STILLFITS_SMTP_SECURITY
  const smtp = {
    ...{ host, security, port: v.STILLFITS_SMTP_PORT ?? PORTS[security] },
    connections: v.STILLFITS_SMTP_CONNECTIONS,
    ...(v.STILLFITS_SMTP_USER !== undefined && {
      ...{ user: v.STILLFITS_SMTP_USER, password: v.STILLFITS_SMTP_PASSWORD },
    }),
    ...(signs && { dkim: { domain, selector, privateKey } }),
  }
  return ok({ ...shared, smtp })
}

/** What belongs together and was given in part, and a server elsewhere without TLS. */
function togetherProblems(v: Read): Problem[] {
  const missing = (field: keyof Read, to: string): Problem => ({
    ...{ code: 'missing', field, next: `Set it too: ${to} is nothing without it.` },
  })
  const half = (names: readonly (keyof Read)[]): Problem[] => {
    const set = names.filter((name) => v[name] !== undefined)
    const [first] = set
    if (first === undefined || set.length === names.length) return []
    return names.filter((name) => v[name] === undefined).map((name) => missing(name, first))
  }
  const host = v.STILLFITS_SMTP_HOST
  const openly: Problem[] =
    host !== undefined && v.STILLFITS_SMTP_SECURITY === 'none' && !isHere(host)
      ? [
          {
            ...{ code: 'not allowed', field: 'STILLFITS_SMTP_SECURITY', got: 'none', allowed: SECURITY },
            next: 'Set it to tls or starttls: without, everybody on the way reads the mails.',
          },
        ]
      : []
  const noHost = host === undefined && v.STILLFITS_SMTP_USER !== undefined
  return [
    ...half(['STILLFITS_SMTP_USER', 'STILLFITS_SMTP_PASSWORD']),
    ...half(['STILLFITS_DKIM_DOMAIN', 'STILLFITS_DKIM_SELECTOR', 'STILLFITS_DKIM_KEY']),
    ...(noHost ? [missing('STILLFITS_SMTP_HOST', 'STILLFITS_SMTP_USER')] : []),
    ...openly,
  ]
}
