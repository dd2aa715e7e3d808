import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'

/** The posted form; a body that is none is answered with a calm 400 page instead of a fault. */
export async function readForm(c: Context): Promise<FormData> {
  try {
    return await c.req.formData()
  } catch (error) {
    throw new HTTPException(400, { cause: error })
  }
}
