import type { Endpoint } from './endpoint.ts'
import { findableEndpoints } from './endpoints/findable.ts'
import { jobEndpoints } from './endpoints/jobs.ts'
import { judgingEndpoints } from './endpoints/judging.ts'
import { machineEndpoints } from './endpoints/machines.ts'
import { oddRunEndpoints } from './endpoints/oddRuns.ts'
import { partEndpoints } from './endpoints/parts.ts'
import { questionEndpoints } from './endpoints/questions.ts'
import { roundEndpoints } from './endpoints/rounds.ts'
import { runEndpoints } from './endpoints/runs.ts'
import { saleEndpoints } from './endpoints/sales.ts'

/** Everything a program can ask for, in the order of the reference page. */
export const ENDPOINTS: readonly Endpoint[] = [
  ...machineEndpoints,
  ...partEndpoints,
  ...findableEndpoints,
  ...runEndpoints,
  ...oddRunEndpoints,
  ...questionEndpoints,
  ...jobEndpoints,
  ...roundEndpoints,
  ...saleEndpoints,
  ...judgingEndpoints,
]
