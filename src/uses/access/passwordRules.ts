import type { Problem } from '../../problem.ts'

/** OWASP ASVS 4.0, 2.1.1 and 2.1.2; NIST SP 800-63B, 5.1.1.2: length counts, kinds of characters do not. */
export const PASSWORD_MIN = 12
export const PASSWORD_MAX = 128

/** What people take first when twelve characters are asked for. Compared without case, spaces and signs. */
const COMMON = [
  ...['passwordpassword', 'mypassword', 'newpassword', 'password', 'passwort', 'passphrase', 'changeme'],
  ...['letmein', 'letmeinplease', 'welcome', 'iloveyou', 'administrator', 'admin', 'root', 'guest'],
  ...['secret', 'topsecret', 'supersecret', 'opensesame', 'correcthorsebatterystaple', 'trustnoone'],
  ...['computer', 'gamingpc', 'workbench', 'workshop', 'myshop', 'stillfits', 'owner', 'staff', 'upgrade'],
  ...['football', 'baseball', 'basketball', 'superman', 'starwars', 'sunshine', 'princess', 'dragon'],
  ...['monkey', 'master', 'shadow', 'whatever', 'nothing', 'default', 'temporary', 'testtest', 'test'],
]

/** Rows of keyboards, and what is counted; read in both directions. */
const ROWS = [
  ...['01234567890123456789', 'abcdefghijklmnopqrstuvwxyzabcdef', 'qwertyuiopasdfghjklzxcvbnm'],
  ...['qwertzuiopasdfghjklyxcvbnm', 'azertyuiopqsdfghjklmwxcvbn', 'qazwsxedcrfvtgbyhnujmikolp'],
  ...['1qaz2wsx3edc4rfv5tgb6yhn', '1q2w3e4r5t6y7u8i9o0p', 'asdfghjklasdfghjkl', 'zxcvbnmzxcvbnm'],
]

const bare = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]/gu, '')

const turned = (text: string): string => [...text].reverse().join('')

/** The shortest text that, written again and again, gives this one: `abab` is `ab`. */
function repeated(text: string): string {
  const again = `${text}${text}`.indexOf(text, 1)
  return text.slice(0, again === -1 ? text.length : again)
}

/** Figures in place of letters, as in `p4ssw0rd`, hide nothing. */
const spelled = (text: string): string =>
  text
    .replaceAll('0', 'o')
    .replaceAll('1', 'i')
    .replaceAll('3', 'e')
    .replaceAll('4', 'a')
    .replaceAll('5', 's')
    .replaceAll('7', 't')

/** Fewer characters of its own than this, besides what everybody guesses, is nothing to find. */
const OWN_MIN = 5

/** Whether guessing would begin with it: common words, runs of keys, one thing repeated, the names around it. */
export function isGuessedFirst(password: string, names: readonly string[]): boolean {
  const text = bare(password)
  if (text === '') return repeated(password).length < OWN_MIN
  if (repeated(text).length < OWN_MIN) return true
  if (ROWS.some((row) => [text, turned(text)].some((t) => row.includes(t) || row.includes(repeated(t)))))
    return true
  const known = [...COMMON, ...names.map(bare).filter((name) => name.length > 2)]
  return [text, spelled(text)].some((t) => {
    const letters = t.replaceAll(/^\d+|\d+$/g, '')
    return known.some((word) => {
      const rest = t.replaceAll(word, '').replaceAll(/\d/g, '')
      return letters === word || repeated(letters) === word || (t.includes(word) && rest.length < OWN_MIN)
    })
  })
}

/** What is wrong with a password that somebody chose. What was typed is never repeated. */
export function passwordProblem(
  field: string,
  password: string,
  names: readonly string[],
): Problem | undefined {
  const length = [...password].length
  const allowed = `${PASSWORD_MIN} to ${PASSWORD_MAX} characters of any kind`
  if (length === 0) return { code: 'missing', field, allowed, next: `Choose a password: ${allowed}.` }
  if (length < PASSWORD_MIN || length > PASSWORD_MAX)
    return { code: 'not allowed', field, allowed, next: `This has ${length} characters. Take ${allowed}.` }
  if (!isGuessedFirst(password, names)) return undefined
  const next = 'This would be guessed early. Take a few words that belong together only for you.'
  return { code: 'not allowed', field, allowed, next }
}
