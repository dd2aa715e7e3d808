/** A figure where it is known, else words that keep the sentence true. */
export const or = (known: string | undefined, instead: string): string => known ?? instead
