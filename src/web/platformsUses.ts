import type { Result } from '../problem.ts'
import type { LooksView, LookView } from '../uses/reach/looks.ts'
import type { Asked } from '../uses/reach/reachInputs.ts'

/** Platforms before one is built: how far each goes. */
export type PlatformsUses = {
  looks(): Promise<LooksView>
  /** Begins one; fields of its problems are those of the ask. */
  askLook(asked: Asked, name: string): Promise<Result<{ readonly id: string }>>
  look(id: string): Promise<Result<LookView>>
  callOffLook(id: string): Promise<void>
  forgetLook(id: string): Promise<Result<{ readonly id: string }>>
}
