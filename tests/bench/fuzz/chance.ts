/** Numbers by chance, the same for the same seed (mulberry32), with what drawing needs. */
export function drawer(seed: number) {
  let state = seed >>> 0
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
  const below = (n: number): number => Math.floor(next() * n)
  const pick = <T>(from: readonly T[]): T => {
    const one = from[below(from.length)]
    if (one === undefined) throw new RangeError('nothing to pick from')
    return one
  }
  return { next, below, pick, isOne: (share: number): boolean => next() < share }
}
export type Drawer = ReturnType<typeof drawer>

/** Texts that have hurt programs: lengths, signs, numbers at their ends, other languages, markup, paths. */
export const NASTY: readonly string[] = [
  ...[
    '',
    ' ',
    '0',
    '-1',
    '1e309',
    'NaN',
    'Infinity',
    '-0',
    '0x10',
    '1,5',
    '1.5',
    '99999999999999999999',
    '2147483648',
  ],
  ...['9007199254740993', '1e-7', '٣', '½', '2026-02-30', '0000-00-00', '9999-12-31', '2026-11-30T25:00:00Z'],
  ...[
    'null',
    'undefined',
    'true',
    '[]',
    '{}',
    '[object Object]',
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
  ],
  ...[
    "' or 1=1 --",
    '"; drop table machines; --',
    '<script>x</script>',
    '{price}',
    '%s%n',
    '../../etc/passwd',
  ],
  ...[
    '..%2f..%2f',
    '%',
    '%00',
    '%zz',
    '%e2%80%ae',
    'a\u0000b',
    '\ud800',
    '\u202eabc',
    '\ufeff',
    'é'.repeat(300),
    '🧰🖥️',
    'שלום',
  ],
  ...[
    '=1+1',
    '@x',
    '\r\nX: y',
    'a@b',
    'x@example.com\r\nBcc: y@example.com',
    'a'.repeat(5000),
    'M-0207',
    'Q-0301',
    'T'.repeat(70),
  ],
  ...[
    '2x8 GB DDR4-3200',
    'i5-10400F',
    '1920x1080',
    '60',
    '100',
    '12.34',
    '2026-11-20',
    'yes',
    'no',
    'on',
    'owner',
    'staff',
  ],
]

/** A text: one of those, or signs by chance. */
export function nasty(draw: Drawer): string {
  if (draw.isOne(0.7)) return draw.pick(NASTY)
  return Array.from({ length: draw.below(40) }, () =>
    String.fromCodePoint(draw.isOne(0.7) ? 32 + draw.below(95) : draw.below(0xd7ff)),
  ).join('')
}

/** Bytes with some turned, cut, doubled or filled. */
export function spoiled(bytes: Uint8Array, draw: Drawer): Uint8Array<ArrayBuffer> {
  let out = new Uint8Array(bytes)
  for (let n = 1 + draw.below(6); n > 0 && out.length > 0; n--) {
    const at = draw.below(out.length)
    const kind = draw.below(5)
    if (kind === 0) out[at] = draw.below(256)
    else if (kind === 1) out = out.slice(0, at)
    else if (kind === 2) out = new Uint8Array([...out.slice(0, at), ...out.slice(Math.max(0, at - 200))])
    else if (kind === 3) out.fill(draw.pick([0, 0x22, 0x2c, 0x0a, 0xff]), at, at + draw.below(20))
    else {
      const text = new TextEncoder().encode(nasty(draw))
      out = new Uint8Array([...out.slice(0, at), ...text, ...out.slice(at)])
    }
  }
  return out
}
