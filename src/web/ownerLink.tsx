import type { Hono } from 'hono'
import type { Language } from '../core/language.ts'
import type { LimitKey } from '../core/limits/limit.ts'
import type { MachineView } from '../uses/views.ts'
import { LIMIT_WORDS } from '../words/en/limits.ts'
import type { Figures } from '../words/figures.ts'
import { wordsIn } from '../words/tables.ts'
import { nameOf, who } from './access/who.ts'
import { enterableKey } from './claimForm.ts'
import { CopyText } from './copyText.tsx'
import { idOf } from './form.tsx'
import { figuresOf, param, pathTo, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { Tag } from './mark.tsx'
import { OnceKey } from './onceKey.tsx'
import { ownerUrl, ReachNote } from './ownerUrl.tsx'
import { problemPage } from './problem.tsx'
import { readForm } from './readForm.ts'

/** Where an owner is asked for a limit; with a question, that one waits for it. */
export const pathToAsk = (tag: string, limit: LimitKey, questionId?: string): string =>
  `/ask?machine=${encodeURIComponent(tag)}&limit=${limit}${questionId === undefined ? '' : `&question=${encodeURIComponent(questionId)}`}`

/** On a machine's page: what its owner is asked for, with photos that came, and links to the owner's page. */
export const OwnerParts = ({ view, figures }: { view: MachineView; figures: Figures }) => {
  const { tag } = view.machine
  const loose = view.photos.filter((photo) => !view.requests.some(({ id }) => id === photo.requestId))
  const [asked, earlier] = [
    loose.filter(({ requestId }) => requestId === undefined),
    loose.filter(({ requestId }) => requestId !== undefined),
  ]
  return (
    <section id="owner">
      <h2>The owner’s page</h2>
      {view.requests.length > 0 && (
        <ul class="ruled">
          {view.requests.map(({ id, limitKey, askedAt }) => (
            <li id={`request-${id}`}>
              <b>{LIMIT_WORDS[limitKey].label}</b> <span class="soft">asked for {figures.date(askedAt)}</span>{' '}
              {enterableKey(limitKey) !== undefined && (
                <a href={`?enter=${limitKey}#limit-${limitKey}`}>
                  Enter it<span class="unseen">: {LIMIT_WORDS[limitKey].label}</span>
                </a>
              )}
              <Photos
                photos={view.photos.filter((photo) => photo.requestId === id)}
                of={LIMIT_WORDS[limitKey].label}
              />
              <details>
                <summary>
                  Add a photo that came another way<span class="unseen">: {LIMIT_WORDS[limitKey].label}</span>
                </summary>
                <PhotoForm action={`${pathTo('machines', tag)}/photos`} id={id} hidden={['request', id]} />
              </details>
            </li>
          ))}
        </ul>
      )}
      {asked.length > 0 && (
        <details>
          <summary>
            {asked.length === 1 ? 'One photo' : `${asked.length} photos`} that came with a question
          </summary>
          <Photos photos={asked} of={tag} />
        </details>
      )}
      {earlier.length > 0 && (
        <details>
          <summary>
            {earlier.length === 1 ? 'One photo' : `${earlier.length} photos`} of earlier requests
          </summary>
          <Photos photos={earlier} of={tag} />
        </details>
      )}
      {view.links.length > 0 && (
        <p class="soft">
          {view.links.length === 1 ? 'One link holds' : `${view.links.length} links hold`}, until{' '}
          {figures.date(view.links[0]?.expiresAt ?? '')} at the latest.
        </p>
      )}
      <div class="actions">
        <form method="post" action={`${pathTo('machines', tag)}/owner-link`}>
          <button class="button quiet" type="submit">
            Make a link for the owner
          </button>
        </form>
        {view.links.length > 0 && (
          <form method="post" action={`${pathTo('machines', tag)}/owner-link/revoke`}>
            <button class="button quiet" type="submit">
              Take all its links back
            </button>
          </form>
        )}
      </div>
    </section>
  )
}

/** Pictures, each a way to itself. */
export const Photos = ({ photos, of }: { photos: MachineView['photos']; of: string }) =>
  photos.length === 0 ? null : (
    <div class="photos">
      {photos.map(({ id, takenBy }) => (
        <a href={`/photos/${id}`}>
          <img src={`/photos/${id}`} alt={`Number ${id}, sent by the ${takenBy}, for ${of}`} loading="lazy" />
        </a>
      ))}
    </div>
  )

/** One photo to send; works without a script. */
export const PhotoForm = (props: {
  action: string
  id: string
  hidden?: readonly [string, string]
  label?: string
  language?: Language
}) => {
  const w = wordsIn(props.language ?? 'en').form
  const inputId = idOf(`photo.${props.id}`)
  return (
    <form method="post" action={props.action} enctype="multipart/form-data" class="form">
      <OnceKey />
      {props.hidden !== undefined && <input type="hidden" name={props.hidden[0]} value={props.hidden[1]} />}
      <div class="field">
        <label for={inputId}>{props.label ?? w.photo}</label>
        <p class="hint" id={`${inputId}-hint`}>
          {w.photoHint}
        </p>
        <input
          id={inputId}
          name="photo"
          type="file"
          accept="image/jpeg,image/png,image/webp"
          aria-describedby={`${inputId}-hint`}
        />
      </div>
      <p class="actions">
        <button class="button quiet" type="submit">
          {w.sendPhoto}
        </button>
      </p>
    </form>
  )
}

/** The bytes of the form's photo; empty where none was chosen. */
export async function photoOf(form: FormData): Promise<Uint8Array> {
  const photo = form.get('photo')
  return photo instanceof File ? new Uint8Array(await photo.arrayBuffer()) : new Uint8Array()
}

/** The bytes of every photo that was chosen; a browser sends an empty file where none was. */
export async function photosOf(form: FormData): Promise<Uint8Array[]> {
  const files = form.getAll('photo').filter((photo) => photo instanceof File)
  return Promise.all(
    files.filter(({ size }) => size > 0).map(async (file) => new Uint8Array(await file.arrayBuffer())),
  )
}

/** Nothing in a picture runs, whatever a browser takes it for. */
const PHOTO_CSP = "default-src 'none'; sandbox"

export function ownerLinkRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  app.post('/machines/:tag/owner-link', async (c) => {
    const made = await uses.makeOwnerLink(param(c, 'tag'), nameOf(who(c)))
    if (!made.ok) return problemPage(c, web, made.problems, 'Machines')
    const shop = await uses.shop()
    const { tag, token, expiresAt } = made.value
    const link = ownerUrl(c, web, token)
    return page(
      c,
      { title: 'Link for the owner', place: 'Machines', demo: options.demo, shopName: shop.name },
      <article class="card slim">
        <p class="line">
          <Tag tag={tag} />
        </p>
        <h1>Link for the owner</h1>
        <CopyText id="owner-link" label="Link for the owner" text={link} rows={3} />
        <p class="soft">
          It holds until {figuresOf(shop).date(expiresAt)}, for this machine and this owner. It is shown this
          once: only a mark of it is kept, so copy it now.
        </p>
        <ReachNote link={link} />
        <p class="actions">
          <a class="button quiet" href={pathTo('machines', tag)}>
            Back to machine {tag}
          </a>
        </p>
      </article>,
    )
  })

  app.post('/machines/:tag/owner-link/revoke', async (c) => {
    const ended = await uses.takeLinksBack(param(c, 'tag'), nameOf(who(c)))
    if (!ended.ok) return problemPage(c, web, ended.problems, 'Machines')
    return c.redirect(`${pathTo('machines', ended.value.tag)}#owner`, 303)
  })

  app.post('/machines/:tag/photos', async (c) => {
    const form = await readForm(c)
    const request = form.get('request')
    const added = await uses.addPhoto(param(c, 'tag'), {
      bytes: await photoOf(form),
      requestId: typeof request === 'string' && request !== '' ? request : undefined,
    })
    if (!added.ok) return problemPage(c, web, added.problems, 'Machines')
    return c.redirect(`${pathTo('machines', added.value.tag)}#owner`, 303)
  })

  app.get('/photos/:id', async (c) => {
    const photo = await uses.photo(param(c, 'id'))
    if (!photo.ok) return problemPage(c, web, photo.problems, 'Machines')
    // Its own type alone, told by its first bytes when it came; nosniff stands on every answer.
    return c.body(new Uint8Array(photo.value.bytes), 200, {
      'Content-Type': photo.value.mediaType,
      'Content-Disposition': 'inline',
      'Content-Security-Policy': PHOTO_CSP,
    })
  })
}
