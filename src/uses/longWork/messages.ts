import type { WorkKind } from '../../core/longWork.ts'

/** One piece of work; `inputs` are those of its kind. */
export type Ordered = { readonly kind: WorkKind; readonly inputs: unknown }

export type Progress = { readonly done: number; readonly of: number }
export type Said = { readonly progress: Progress } | { readonly result: unknown } | { readonly error: Error }
