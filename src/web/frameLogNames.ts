/** Words of a name apart by one space: files are called `M-0207 saffron_relay.csv` as well as `saffron-relay.m-0207.csv`. */
const wordsOf = (text: string): string =>
  text
    .toLocaleLowerCase('und')
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()

/** Whether a file's name has that name in it as a whole, with or without what parts its words. */
function holds(fileName: string, name: string): boolean {
  const sought = wordsOf(name)
  const pattern = sought.replaceAll(' ', ' ?')
  return (
    sought.length > 2 &&
    new RegExp(`(?<![\\p{L}\\p{N}])${pattern}(?![\\p{L}\\p{N}])`, 'u').test(wordsOf(fileName))
  )
}

/** The one thing that all files are named after; undefined where it is none or several. */
export function onlyNamed<T>(
  things: readonly T[],
  fileNames: readonly string[],
  namesOf: (thing: T) => readonly string[],
): T | undefined {
  const found = things.filter((thing) =>
    fileNames.every((fileName) => namesOf(thing).some((name) => holds(fileName, name))),
  )
  return found.length === 1 ? found[0] : undefined
}
