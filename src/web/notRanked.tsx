import type { Missing } from '../core/fit/finding.ts'
import type { WantedRun } from '../core/gain/gain.ts'
import { changesOfPart } from '../core/limitsBehind.ts'
import type { Option, RuledOut } from '../core/ranking/option.ts'
import { sayFinding } from '../words/findings.ts'
import { checkWords, gradeWords, lackingWords, optionWords, priceWords } from '../words/options.ts'
import { sayTooLoud } from '../words/quiet.ts'
import { pathToWhy, type Shown, soundOf } from './answerContext.ts'
import { FindingDetails } from './explain.tsx'
import { ListEnd, listed } from './listEnd.tsx'
import { VerdictMark } from './mark.tsx'
import { LimitLink, MissingLinks } from './missingLinks.tsx'
import { RunLink } from './runLink.tsx'
import { settingName, titleName } from './settingText.ts'
import { YesLink } from './yesLink.tsx'

const wantedRunsOf = (option: Option): WantedRun[] =>
  option.gains.flatMap((gain) => (gain.grade === 'no number' ? gain.wanted : []))

const RunText = ({ run, shown }: { run: WantedRun; shown: Shown }) => {
  const { titles, settings } = shown.answer.inputs
  const { processorId, cardId, memory, link } = run.fitted
  return (
    <>
      Run <b>{titleName(titles, run.titleId)}</b> ({settingName(settings, run.settingId)}) once with{' '}
      {shown.lookup.partName(processorId)} and {shown.lookup.partName(cardId)},{' '}
      {`${memory.totalGB}\u00a0GB at ${memory.rateMts}\u00a0MT/s in ${memory.channels} ${memory.channels === 1 ? 'channel' : 'channels'}, link gen ${link.gen} ×${link.lanes}.`}
    </>
  )
}

const Line = ({ option, shown }: { option: Option; shown: Shown }) => (
  <p>
    <VerdictMark verdict={option.verdict} /> <b>{optionWords(option, shown.answer.inputs.parts)}</b>{' '}
    <span class="num">{priceWords(option, shown.figures)}</span>
    {soundOf(shown, option).map((text) => (
      <small class="block">{text}</small>
    ))}
  </p>
)

const More = ({ option, shown, number }: { option: Option; shown: Shown; number: number }) => (
  <p>
    <a href={pathToWhy(shown, option)}>
      Price and reasons<span class="unseen"> of item {number}</span>
    </a>
  </p>
)

/** Options without a number that show at once: one run often serves several of them. */
const LISTED_AT_FIRST = 3

const Numberless = ({ option, shown, number }: { option: Option; shown: Shown; number: number }) => (
  <li>
    <Line option={option} shown={shown} />
    <p class="actions">
      <YesLink option={option} shown={shown} />
    </p>
    {wantedRunsOf(option)
      .slice(0, 3)
      .map((run) => (
        <p>
          <RunText run={run} shown={shown} /> <RunLink run={run} machine={shown.answer.inputs.machine} />
        </p>
      ))}
    <More option={option} shown={shown} number={number} />
  </li>
)

/** Options that fit and have no number, each with the run that would give one. */
export const WithoutNumber = ({ shown }: { shown: Shown }) => {
  const { withoutNumber } = shown.answer.ranking
  const rest = withoutNumber.slice(LISTED_AT_FIRST)
  if (withoutNumber.length === 0) return null
  return (
    <section>
      <h2>Fits, but no number</h2>
      <p class="soft">Nothing was measured that these could be judged by, so they are not ranked.</p>
      <ul class="ruled">
        {withoutNumber.slice(0, LISTED_AT_FIRST).map((option, i) => (
          <Numberless option={option} shown={shown} number={i + 1} />
        ))}
      </ul>
      {rest.length > 0 && (
        <details>
          <summary>Show {rest.length} more without a number</summary>
          <ul class="ruled">
            {listed(rest, shown).map((option, i) => (
              <Numberless option={option} shown={shown} number={LISTED_AT_FIRST + i + 1} />
            ))}
          </ul>
          <ListEnd of={rest} shown={shown} />
        </details>
      )}
    </section>
  )
}

/** A fact that is asked for twice is one fact. */
const factOf = (missing: Missing): string =>
  'limit' in missing ? missing.limit : `${missing.partId} ${missing.spec}`

type Unknown = { readonly text: string; readonly missing: readonly Missing[] }

/** What keeps an option from being judged: each different sentence once, with the facts that it asks for. */
function unknownsOf(option: Option, shown: Shown): Unknown[] {
  const asked = new Set<string>()
  const sentences = new Map<string, Missing[]>()
  for (const finding of option.findings.filter((f) => f.verdict === "can't tell")) {
    const said = sayFinding(finding, shown.figures, shown.lookup)
    const text = [said.owner, said.next].filter((part) => part !== undefined).join(' ')
    const list = sentences.get(text) ?? []
    sentences.set(text, list)
    for (const missing of finding.missing) {
      if (!asked.has(factOf(missing))) list.push(missing)
      asked.add(factOf(missing))
    }
  }
  return [...sentences].map(([text, missing]) => ({ text, missing }))
}

const Undecided = ({ option, shown, number }: { option: Option; shown: Shown; number: number }) => {
  const unknowns = unknownsOf(option, shown)
  const facts = unknowns.reduce((sum, { missing }) => sum + missing.length, 0)
  return (
    <li>
      <Line option={option} shown={shown} />
      {facts > 0 && (
        <p class="soft">
          {facts} {facts === 1 ? 'fact' : 'facts'} missing
        </p>
      )}
      {unknowns.map(({ text, missing }) => (
        <p>
          {text}
          <MissingLinks missing={missing} shown={shown} />
        </p>
      ))}
      {option.useful !== undefined && (
        <p class="soft">
          If it fits: {shown.figures.gainPct(option.useful.pct)} useful gain, {gradeWords(option)}.
        </p>
      )}
      {option.surely !== undefined && (
        <p class="soft">
          Needs no fact: {optionWords(option.surely, shown.answer.inputs.parts)},{' '}
          {priceWords(option.surely, shown.figures)}. <YesLink option={option.surely} shown={shown} />
        </p>
      )}
      <More option={option} shown={shown} number={number} />
    </li>
  )
}

/** Options that missing facts keep out, each with how to find them out. */
export const NeedsAFact = ({ shown }: { shown: Shown }) => {
  const { needsAFact } = shown.answer.ranking
  if (needsAFact.length === 0) return null
  return (
    <section id="needs-a-fact">
      <h2>Can’t tell yet</h2>
      <ul class="ruled">
        {listed(needsAFact, shown).map((option, i) => (
          <Undecided option={option} shown={shown} number={i + 1} />
        ))}
      </ul>
      <ListEnd of={needsAFact} shown={shown} />
    </section>
  )
}

/** Works that may be worth doing, each with what to look at first. */
export const CheckFirstList = ({ shown }: { shown: Shown }) => {
  const { asked, ranking } = shown.answer
  // Of a complaint the works stand on top of the page, with what there is to do about them.
  const above = asked?.ask === 'something is wrong' ? asked.works.map(({ work }) => work) : []
  const checkFirst = ranking.checkFirst.filter(
    ({ option }) => !option.change.work.some((work) => above.some((named) => named === work)),
  )
  if (checkFirst.length === 0) return null
  return (
    <section>
      <h2>Check this first</h2>
      <p class="soft">Work that may help; nobody has looked whether there is anything to do.</p>
      <ul class="ruled">
        {checkFirst.map((check) => (
          <li>
            <Line option={check.option} shown={shown} />
            {checkWords(check).map((text, i) => (
              <p>
                {text}{' '}
                {check.limits.slice(i, i + 1).map((limit) => (
                  <LimitLink limit={limit} shown={shown} />
                ))}
              </p>
            ))}
            {check.option.useful !== undefined && (
              <p class="soft">
                If it is not done yet: {shown.figures.gainPct(check.option.useful.pct)} useful gain,{' '}
                {check.option.useful.grade}.
              </p>
            )}
            <p class="actions">
              <YesLink option={check.option} shown={shown} />
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}

const partOf = ({ partId }: RuledOut, { answer }: Shown) =>
  answer.inputs.parts.find(({ id }) => id === partId)

const OutReason = ({ out, shown }: { out: RuledOut; shown: Shown }) => (
  <>
    {lackingWords(out) !== undefined && <small class="block">{lackingWords(out)}</small>}
    {out.wish === 'quiet' &&
      shown.answer.sound !== undefined &&
      sayTooLoud([out.partId], shown.answer.sound, shown.figures, shown.lookup.partName).map((text) => (
        <small class="block">{text}</small>
      ))}
    {out.findings.map((finding) => (
      <FindingDetails
        finding={finding}
        changes={changesOfPart(partOf(out, shown), shown.answer)}
        shown={shown}
        marked={false}
      />
    ))}
  </>
)

/** What the shelf has and this machine cannot take, each with its reason. */
export const RuledOutList = ({ shown }: { shown: Shown }) => {
  const { ruledOut } = shown.answer.ranking
  if (ruledOut.length === 0) return null
  return (
    <section id="ruled-out">
      <h2>Left out, and why</h2>
      <ul class="ruled">
        {listed(ruledOut, shown).map((out) => (
          <li>
            <VerdictMark verdict={out.verdict} /> <b>{shown.lookup.partName(out.partId)}</b>
            <OutReason out={out} shown={shown} />
          </li>
        ))}
      </ul>
      <ListEnd of={ruledOut} shown={shown} />
    </section>
  )
}
