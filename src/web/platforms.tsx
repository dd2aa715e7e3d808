import type { Context, Hono } from 'hono'
import type { PartKind } from '../core/part.ts'
import { type Problem, STATUS_OF } from '../problem.ts'
import type { LooksView } from '../uses/reach/looks.ts'
import { LONG_WORK_EN } from '../words/en/longWork.ts'
import { REACH_EN } from '../words/en/reach.ts'
import type { Figures } from '../words/figures.ts'
import { KIND_WORDS } from '../words/options.ts'
import { letterAt } from '../words/reach.ts'
import { capital, fill } from '../words/say.ts'
import { settingText } from '../words/settings.ts'
import { Field, ProblemSummary, Select, type Typed, typedOf } from './form.tsx'
import { figuresOf, readingFor, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { OnceKey } from './onceKey.tsx'
import {
  AROUND_KINDS,
  aroundField,
  CORE_KINDS,
  firstTyped,
  inForm,
  NEEDED_AROUND,
  platformCount,
  platformField,
  priceField,
  readLook,
  titleField,
} from './platformsForm.ts'
import { pathToLook, platformsResultRoutes } from './platformsResult.tsx'
import { readForm } from './readForm.ts'

const W = REACH_EN.list

type FormProps = { typed: Typed; problems: readonly Problem[] }

/** So many parts of a kind are proposed: a shop knows hundreds, and any name may be typed. */
const PROPOSED = 30

/** Parts of a kind, with where they can be had; what is nowhere on sale stands last, while there is room. */
const Known = ({ view, kind, figures }: { view: LooksView; kind: PartKind; figures: Figures }) => {
  const lines = view.parts
    .filter((part) => part.kind === kind)
    .map(({ id, name }) => {
      const onShelf = view.shelf.find(({ partId }) => partId === id)
      const seen = view.findable.find(({ partId }) => partId === id)
      if (onShelf !== undefined)
        return { name, order: 0, says: fill(W.onShelf, { price: figures.money(onShelf.priceMinor) }) }
      if (seen === undefined) return { name, order: 2, says: W.described }
      const range = { low: figures.money(seen.lowMinor), high: figures.money(seen.highMinor) }
      return { name, order: 1, says: fill(W.seen, range) }
    })
    .sort((a, b) => a.order - b.order)
    .slice(0, PROPOSED)
  return (
    <datalist id={`platform-${kind}`}>
      {lines.map(({ name, says }) => (
        <option value={name}>{`${name}: ${says}`}</option>
      ))}
    </datalist>
  )
}

const PlatformFields = ({ n, currency, ...form }: { n: number; currency: string } & FormProps) => (
  <fieldset>
    <legend>{fill(W.platform, { letter: letterAt(n) })}</legend>
    <Field {...form} name={platformField(n, 'name')} label={W.platformName} />
    {CORE_KINDS.map((kind) => (
      <div class="row">
        <Field
          {...form}
          name={platformField(n, kind)}
          label={capital(KIND_WORDS[kind], 'en')}
          list={`platform-${kind}`}
        />
        <Field
          {...form}
          name={priceField(n, kind)}
          label={fill(W.price, { kind: KIND_WORDS[kind] })}
          inputmode="decimal"
          unit={currency}
          narrow
        />
      </div>
    ))}
  </fieldset>
)

const Titles = ({ view, ...form }: { view: LooksView } & FormProps) => (
  <fieldset>
    <legend>{W.titles}</legend>
    <p class="hint">{W.titlesHint}</p>
    <div class="pieces">
      {view.titles.map(({ id, name }) => (
        <Select
          {...form}
          name={titleField(id)}
          label={name}
          choices={[
            ['', W.notPlayed] as const,
            ...view.settings.map((setting) => [setting.id, settingText(setting)] as const),
          ]}
        />
      ))}
    </div>
  </fieldset>
)

const Wanted = ({ currency, ...form }: { currency: string } & FormProps) => (
  <>
    <div class="row">
      <Field {...form} name="target" label={W.target} unit="FPS" inputmode="decimal" narrow />
      <Field {...form} name="refresh" label={W.refresh} unit="Hz" inputmode="decimal" narrow />
      <Field {...form} name="upTo" label={W.upTo} unit={currency} inputmode="decimal" narrow />
    </div>
    <fieldset>
      <legend>{W.later}</legend>
      <p class="hint">{W.laterHint}</p>
      <div class="row">
        <Field {...form} name="fall" label={W.fall} unit="%" inputmode="decimal" narrow />
        <Field
          {...form}
          name="heavier"
          label={W.heavier}
          hint={W.heavierHint}
          unit="%"
          inputmode="decimal"
          narrow
        />
        <Field {...form} name="years" label={W.years} inputmode="numeric" narrow />
      </div>
    </fieldset>
  </>
)

const FIELD_LABELS: Readonly<Record<string, string>> = {
  ...{ name: W.name, target: W.target, refresh: W.refresh, upTo: W.upTo },
  ...{ fall: W.fall, heavier: W.heavier, years: W.years },
}

/** A field as the list of problems calls it. */
function labelIn(view: LooksView, field: string): string | undefined {
  const [, n, kind, price] = /^platform\.(\d)\.([a-z]+)(Price)?$/.exec(field) ?? []
  if (n !== undefined) {
    const word = kind === 'name' ? W.platformName : KIND_WORDS[kind as PartKind]
    const said = price === undefined ? word : fill(W.price, { kind: word })
    return `${fill(W.platform, { letter: letterAt(Number(n)) })}: ${said}`
  }
  const around = AROUND_KINDS.find((one) => aroundField(one) === field)
  if (around !== undefined) return capital(KIND_WORDS[around], 'en')
  return FIELD_LABELS[field] ?? view.titles.find(({ id }) => titleField(id) === field)?.name
}

type AskProps = { view: LooksView; figures: Figures; currency: string; oneMore: boolean } & FormProps

const AskForm = ({ view, figures, currency, oneMore, ...form }: AskProps) => {
  const count = platformCount(form.typed, oneMore)
  return (
    <section class="card form">
      <h2>{W.form}</h2>
      <ProblemSummary problems={form.problems} labels={(field) => labelIn(view, field)} />
      <form method="post" action="/platforms">
        <OnceKey />
        <input type="hidden" name="count" value={String(count)} />
        <button hidden type="submit" name="do" value="start">
          {W.start}
        </button>
        <p class="hint">{W.platformsHint}</p>
        <p class="hint">{W.priceHint}</p>
        <div class="platform-fields">
          {Array.from({ length: count }, (_, n) => (
            <PlatformFields n={n} currency={currency} {...form} />
          ))}
        </div>
        <p class="actions">
          <button class="button quiet" type="submit" name="do" value="more">
            {W.more}
          </button>
        </p>
        <fieldset>
          <legend>{W.around}</legend>
          <p class="hint">{W.aroundHint}</p>
          <div class="pieces">
            {AROUND_KINDS.map((kind) => (
              <Field
                {...form}
                name={aroundField(kind)}
                label={capital(KIND_WORDS[kind], 'en')}
                list={`platform-${kind}`}
                required={NEEDED_AROUND.has(kind)}
              />
            ))}
          </div>
        </fieldset>
        {[...CORE_KINDS, ...AROUND_KINDS].map((kind) => (
          <Known view={view} kind={kind} figures={figures} />
        ))}
        <Titles view={view} {...form} />
        <Wanted currency={currency} {...form} />
        <Field {...form} name="name" label={W.name} />
        <p class="does">
          <button class="button" type="submit" name="do" value="start">
            {W.start}
          </button>
        </p>
      </form>
    </section>
  )
}

const Earlier = ({ looks, figures }: { looks: LooksView['looks']; figures: Figures }) => (
  <section class="card">
    <h2>{W.earlier}</h2>
    {looks.length === 0 ? (
      <p class="nothing">{W.noEarlier}</p>
    ) : (
      <ul class="ruled">
        {looks.map(({ id, name, askedAt, state }) => (
          <li>
            <p class="line">
              <a href={pathToLook(id)}>{name ?? W.unnamed}</a>
              <span class="soft">
                {figures.dateTime(askedAt)}, {LONG_WORK_EN.states[state]}
              </span>
            </p>
          </li>
        ))}
      </ul>
    )}
  </section>
)

export function platformsRoutes(app: Hono, web: Web): void {
  const { uses, options } = web

  /** Without words of its own it is the form as it is at first. */
  const show = async (
    c: Context,
    typed: Typed | undefined,
    problems: readonly Problem[],
    oneMore = false,
  ) => {
    const [shop, view] = await Promise.all([uses.shop(), uses.looks()])
    const figures = figuresOf(shop)
    const status = problems[0] === undefined ? 200 : STATUS_OF[problems[0].code]
    const form = { typed: typed ?? firstTyped(view), problems, oneMore, currency: shop.policy.currency }
    return page(
      c,
      { title: W.head, place: 'Platforms', demo: options.demo, shopName: shop.name },
      <>
        <h1>{W.head}</h1>
        <p class="hint">{W.about}</p>
        {view.titles.length === 0 || view.settings.length === 0 ? (
          <p class="card empty">
            {W.nothing} <a href="/titles">{W.toTitles}</a>
          </p>
        ) : (
          <AskForm view={view} figures={figures} {...form} />
        )}
        <Earlier looks={view.looks} figures={figures} />
      </>,
      status,
    )
  }

  app.get('/platforms', (c) => show(c, undefined, []))
  app.post('/platforms', async (c) => {
    const typed = typedOf(await readForm(c))
    if (typed.get('do')?.[0] === 'more') return show(c, typed, [], true)
    const [shop, view] = await Promise.all([uses.shop(), uses.looks()])
    const read = readLook(typed, view, readingFor(shop))
    if (!read.ok) return show(c, typed, read.problems)
    const asked = await uses.askLook(read.value.asked, read.value.name)
    if (!asked.ok) return show(c, typed, inForm(asked.problems, view, read.value.asked.ask))
    return c.redirect(pathToLook(asked.value.id), 303)
  })
  platformsResultRoutes(app, web)
}
