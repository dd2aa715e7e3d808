import type { Hono } from 'hono'
import { createApp } from '../../src/web/app.ts'
import { cannedUses } from './cannedUses.ts'
import { asDemo, asOwner } from './signedIn.ts'
import type { PageState } from './states.ts'

export const ORIGIN = 'http://stillfits.test'

/** The form of a state as a browser would send it; `files` names a CSV file to upload. */
export function bodyOf(form: Readonly<Record<string, string>>): FormData {
  const data = new FormData()
  for (const [name, value] of Object.entries(form)) {
    if (name === 'files') data.append(name, new File(['a,b\n1,2\n'], value, { type: 'text/csv' }))
    else data.append(name, value)
  }
  return data
}

export function appOf(state: PageState): Hono {
  const { uses } = cannedUses({
    ...(state.inputs !== undefined && { inputs: state.inputs }),
    ...(state.uses !== undefined && { uses: state.uses }),
  })
  const demo = state.demo ?? false
  if (state.as === 'stranger') return createApp(uses, { demo })
  return createApp(uses, { demo, everybodyIs: state.as ?? (demo ? asDemo : asOwner).everybodyIs })
}

/** Headers of a form that our own page sent. */
export const FROM_OUR_PAGE = { origin: ORIGIN, 'sec-fetch-site': 'same-origin' }

/** Asks the pages for one state, without a network. */
export async function answerTo(state: PageState): Promise<Response> {
  const sent = state.form === undefined ? {} : { method: 'POST', body: bodyOf(state.form) }
  return appOf(state).request(`${ORIGIN}${state.path}`, {
    ...sent,
    headers: { ...FROM_OUR_PAGE, ...(state.cookie !== undefined && { cookie: state.cookie }) },
  })
}
