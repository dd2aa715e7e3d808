import type { Run, Setting, Title } from './run.ts'

/** A run this close to its cap was held by it, whatever the parts could do (common practice; the share is ours). */
export const NEAR_CAP_SHARE = 0.03

/** The lowest frame rate that something else than the parts holds a title to: the setting's limiter or its engine. */
export function capOf(setting: Setting | undefined, title: Title | undefined): number | undefined {
  const caps = [setting?.capFps, title?.capFps].filter((fps) => fps !== undefined && fps > 0)
  return caps.length === 0 ? undefined : Math.min(...(caps as number[]))
}

/**
 * True for a run whose average is within 3 % of its cap, or above it: it says "at least" and is no measured number of
 * what the parts can do. A setting or title that nobody knows holds nothing.
 */
export function isCapped(
  run: Pick<Run, 'averageFps'>,
  setting: Setting | undefined,
  title: Title | undefined,
): boolean {
  const cap = capOf(setting, title)
  return cap !== undefined && run.averageFps >= (1 - NEAR_CAP_SHARE) * cap
}
