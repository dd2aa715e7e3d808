import type { FitCase } from './case.ts'
import { coolingCapacity } from './coolingCapacity.ts'
import { coolingMount } from './coolingMount.ts'
import { coolingPoint } from './coolingPoint.ts'
import { coolingRadiator } from './coolingRadiator.ts'
import { coolingRating } from './coolingRating.ts'
import { coolingRoom } from './coolingRoom.ts'

/** Mount, height, modules under the fan, radiator, and what the cooler holds. */
export const coolingCases: readonly FitCase[] = [
  ...coolingMount,
  ...coolingRoom,
  ...coolingRadiator,
  ...coolingCapacity,
  ...coolingPoint,
  ...coolingRating,
]
