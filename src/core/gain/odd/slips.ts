import type { Slip } from './odd.ts'

/** A figure that may have been meant, how it came to be another, and how many would have done as well. */
export type Meant = { readonly fps: number; readonly slip: Slip; readonly among: number }

/**
 * Figures from which one slip of the hand makes `fps` as it is written: the point one place off, two neighbouring digits
 * the wrong way round, a digit left out, a digit typed twice. Decimals as they are written down, one place at most.
 */
export function slipsOf(fps: number): readonly Meant[] {
  const text = String(Math.round(fps * 10) / 10)
  const found = new Map<number, Meant>()
  const add = (value: number, slip: Slip, among = 1) => {
    const meant = Math.round(value * 10) / 10
    if (!(meant >= 1) || meant > 2000 || meant === fps || found.has(meant)) return
    found.set(meant, { fps: meant, slip, among })
  }
  add(fps / 10, 'ten times')
  add(fps * 10, 'a tenth')
  const digits = text.replace('.', '')
  const point = text.includes('.') ? text.indexOf('.') : digits.length
  const asWritten = (list: string, at: number): number => Number(`${list.slice(0, at)}.${list.slice(at)}`)
  for (let i = 0; i + 1 < digits.length; i++) {
    const [a = '', b = ''] = [digits[i], digits[i + 1]]
    if (a !== b) add(asWritten(digits.slice(0, i) + b + a + digits.slice(i + 2), point), 'swapped')
    else if (i < point) add(asWritten(digits.slice(0, i) + digits.slice(i + 1), point - 1), 'digit twice')
  }
  const places = point + 1
  for (let i = 0; i < places; i++)
    for (let d = i === 0 ? 1 : 0; d <= 9; d++)
      add(
        asWritten(digits.slice(0, i) + String(d) + digits.slice(i), point + 1),
        'digit missing',
        10 * places,
      )
  return [...found.values()]
}
