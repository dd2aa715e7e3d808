import { createHash, randomBytes } from 'node:crypto'

/** 256 bits: nobody finds one by trying (OWASP ASVS 4.0, 3.2.2 asks for 64). */
const SECRET_BYTES = 32

/** Something only its holder knows: what a session's cookie or a program's key is made of. */
export const newSecret = (): string => randomBytes(SECRET_BYTES).toString('base64url')

/**
 * What is kept of a secret. A plain hash is enough for something that chance made; it is found by the hash as a key, so
 * how long a look-up takes tells nothing about one that is nearly right.
 */
export const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex')

/** Digits and letters that are not taken for one another; i, l and o are read as the digits they look like. */
const SIGNS = '0123456789abcdefghjkmnpqrstvwxyz'
const CODE_SIGNS = 20
const GROUP = 5

/** A one-time code that a person types: 20 signs of 32, so 100 bits, in groups. */
export function newCode(): string {
  // 256 is a multiple of 32, so every sign is equally likely.
  const signs = [...randomBytes(CODE_SIGNS)].map((byte) => SIGNS[byte % SIGNS.length]).join('')
  return (signs.match(new RegExp(`.{${GROUP}}`, 'g')) ?? []).join('-')
}

/** The code that was meant: without case, spaces and dashes. */
export const tidyCode = (typed: string): string =>
  typed
    .toLowerCase()
    .replaceAll(/[\s\p{Pd}]/gu, '')
    .replaceAll('o', '0')
    .replaceAll(/[il]/g, '1')

/** What is kept of a code. */
export const codeHashOf = (typed: string): string => hashOf(tidyCode(typed))
