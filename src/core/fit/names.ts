/** Compares names of sockets as people write them: `LGA 1200`, `lga1200`. */
export const sameName = (a: string, b: string): boolean => plain(a) === plain(b)

const plain = (name: string): string => name.replace(/\s+/g, '').toUpperCase()
