import { randomUUID } from 'node:crypto'

/** The field by which a form that is sent twice is known again. */
export const ONCE = 'once'

/** Stands in every form that makes something new: another key each time the form is drawn. */
export const OnceKey = () => <input type="hidden" name={ONCE} value={randomUUID()} />
