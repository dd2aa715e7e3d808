import { encode } from 'uqr'

/** Light modules around a code, each side (ISO/IEC 18004, quiet zone). */
export const QUIET_MODULES = 4

/** A text as a QR code, row by row, true = dark, without its quiet zone. Error correction M: 15 % may be worn off. */
export const qrModules = (text: string): readonly (readonly boolean[])[] =>
  encode(text, { ecc: 'M', border: 0 }).data

/** The dark modules as one SVG path, one unit a module, the quiet zone included. */
export function qrPath(modules: readonly (readonly boolean[])[]): string {
  return modules
    .flatMap((row, y) =>
      row.flatMap((isDark, x) => (isDark ? [`M${x + QUIET_MODULES} ${y + QUIET_MODULES}h1v1h-1z`] : [])),
    )
    .join('')
}

/** Side of the code with its quiet zone, in modules. */
export const qrSide = (modules: readonly unknown[]): number => modules.length + 2 * QUIET_MODULES
