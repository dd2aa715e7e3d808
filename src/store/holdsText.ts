import { type SQL, type SQLWrapper, sql } from 'drizzle-orm'

/** A longer text is found by no page: what is looked for is a name or a tag. */
const LONGEST = 100

/**
 * Whether a text holds what is looked for, upper and lower case alike in any alphabet; everything does for ''. SQLite folds
 * ASCII alone, so each letter becomes a class of its cases, as in `*[äÄ][rR]*`.
 */
export function holdsText(text: SQLWrapper, sought: string): SQL {
  const letters = [...sought.trim().slice(0, LONGEST)]
  // The same by the operator that folds ASCII by itself, in a third of the time.
  if (letters.every((letter) => letter <= '\u007f'))
    return sql`${text} like ${`%${letters.map((letter) => letter.replace(/[%_\\]/, '\\$&')).join('')}%`} escape '\\'`
  const pattern = letters.map((letter) => {
    const cases = [letter, letter.toLocaleLowerCase('und'), letter.toLocaleUpperCase('und')]
    const single = [...new Set(cases)].filter((one) => [...one].length === 1)
    // Outside of a class a sign that means something must not stand alone; `^` means something only within one.
    return single.length === 1 && !'*?[]'.includes(letter) ? letter : `[${single.join('')}]`
  })
  return sql`${text} glob ${`*${pattern.join('')}*`}`
}
