import { LANGUAGES, type Language } from '../core/language.ts'
import type { Problem } from '../problem.ts'
import { fill } from '../words/say.ts'
import { FieldProblems, idOf } from './form.tsx'
import type { OwnerProps } from './ownerForms.tsx'
import { pathUnder } from './ownerRoutes.tsx'

/** A box for one yes; never ticked beforehand. */
export const Tick = (props: { name: string; says: string; problems: readonly Problem[] }) => {
  const { name, says, problems } = props
  const isWrong = problems.some(({ field }) => field === name)
  return (
    <div class={isWrong ? 'field bad' : 'field'}>
      <label class="check">
        <input
          id={idOf(name)}
          type="checkbox"
          name={name}
          value="yes"
          aria-invalid={isWrong ? 'true' : undefined}
          aria-describedby={isWrong ? `${idOf(name)}-wrong` : undefined}
        />{' '}
        {says}
      </label>
      <FieldProblems name={name} problems={problems} />
    </div>
  )
}

/** Whether they want mails about upgrades: a yes in the very words, a no in one step. */
export const ConsentBox = ({ view, words, token, figures, problems }: OwnerProps) => {
  const { person } = view
  const w = words.ownerPerson
  if (person === undefined) return null
  const { consent, wording, hasAddress } = person
  return (
    <section class="card" id="offers">
      <h2>{w.offers}</h2>
      {consent?.standing === 'given' ? (
        <>
          <p>{fill(w.given, { date: figures.date(consent.at) })}</p>
          <blockquote lang={consent.language}>{consent.wording}</blockquote>
          {!hasAddress && <p class="soft">{w.noAddress}</p>}
          <form method="post" action={pathUnder(token, 'consent')}>
            <p class="actions">
              <button class="button quiet" type="submit" name="do" value="stop">
                {w.stop}
              </button>
            </p>
          </form>
        </>
      ) : (
        <>
          <p>{consent === undefined ? w.never : fill(w.withdrawn, { date: figures.date(consent.at) })}</p>
          {!hasAddress && <p class="soft">{w.noAddress}</p>}
          {person.eraseAskedAt === undefined && (
            <form method="post" action={pathUnder(token, 'consent')} class="form">
              <input type="hidden" name="wording" value={wording} />
              <Tick name="consent" says={wording} problems={problems} />
              <p class="actions">
                <button class="button quiet" type="submit" name="do" value="yes">
                  {w.yes}
                </button>
              </p>
            </form>
          )}
        </>
      )}
    </section>
  )
}

/** What else is theirs to decide: what is kept of them, that the machine has gone, to be erased. */
export const AboutYou = ({ view, words: { ownerPerson: w }, token, figures }: OwnerProps) => (
  <section class="card" id="you">
    <h2>{w.about}</h2>
    {view.person?.eraseAskedAt !== undefined && (
      <form method="post" action={pathUnder(token, 'erase/back')}>
        <p>{fill(w.erase.asked, { date: figures.date(view.person.eraseAskedAt) })}</p>
        <p class="actions">
          <button class="button quiet" type="submit">
            {w.erase.back}
          </button>
        </p>
      </form>
    )}
    <ul class="ruled">
      {view.person !== undefined && (
        <li>
          <a href={pathUnder(token, 'mine')}>{w.mine}</a>
        </li>
      )}
      <li>
        <a href={pathUnder(token, 'sold')}>{w.soldLink}</a>
      </li>
      {view.person !== undefined && view.person.eraseAskedAt === undefined && (
        <li>
          <a href={pathUnder(token, 'erase')}>{w.eraseLink}</a>
        </li>
      )}
    </ul>
  </section>
)

/** The page, and mails, in another language; quiet, because most never need it. */
export const LanguageChoice = ({ view, words, token }: OwnerProps) => {
  if (view.person === undefined) return null
  const w = words.owner.language
  return (
    <form method="post" action={pathUnder(token, 'language')} class="line" aria-label={w.head}>
      <span class="soft">{w.says}</span>
      {LANGUAGES.map((language) =>
        language === view.language ? (
          <b lang={language}>{LANGUAGE_NAMES[language]}</b>
        ) : (
          <button class="button quiet" type="submit" name="language" value={language} lang={language}>
            {LANGUAGE_NAMES[language]}
          </button>
        ),
      )}
    </form>
  )
}

/** Each in itself, so that whoever needs it can read it. */
const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' }
