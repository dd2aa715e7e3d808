/** Freezes a value and all it holds, so that a function that changes its input throws. */
export function freeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value)
    for (const inner of Object.values(value)) freeze(inner)
  }
  return value
}
