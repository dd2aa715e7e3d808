/** A figure where it is known, else words that keep the sentence true; a list with nothing in it is no figure. */
export const or = (known: string | undefined, instead: string): string =>
  known === undefined || known === '' ? instead : known

/** A formatted count with its noun, which is plural unless it is one: "1 cable", "2 cables". */
export const howMany = (figure: string, what: string): string =>
  `${figure} ${what}${figure === '1' ? '' : 's'}`
