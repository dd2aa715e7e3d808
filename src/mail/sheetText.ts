import type { NextSaid } from '../words/limitsSheet.ts'
import type { SheetMail } from '../words/sheetMail.ts'
import { bullet, heading, wrap } from '../words/wrap.ts'
import { boundsText } from './sheetSlots.ts'

/** The text part: the same words in the same order as the HTML. "-- " before the foot, so that replies drop it. */
export function sheetText(mail: SheetMail): string {
  const { said, foot } = mail
  const facts = (rows: typeof said.free.rows) => rows.map(({ label, text }) => bullet(`${label}: ${text}`))
  const [, average, low] = said.measured.columns
  const sections = [
    wrap(mail.masthead),
    wrap(mail.greeting),
    wrap(mail.ready),
    ...mail.opening.map((text) => wrap(text)),
    section(said.title, [wrap(said.about.join(' '))]),
    section(said.inside.head, facts(said.inside.rows)),
    section(said.measured.head, [
      wrap(said.measured.says),
      ...said.measured.rows.map((run) =>
        bullet(
          [
            `${run.game}, ${run.setting}: ${average}: ${run.average}. ${low}: ${run.low}.`,
            ...(run.note === undefined ? [] : [`(${run.note})`]),
          ].join(' '),
        ),
      ),
    ]),
    section(said.next.head, [wrap(said.next.says)]),
    ...said.next.kinds.map(kindText),
    ...(said.never.groups.length === 0
      ? []
      : [
          section(
            said.never.head,
            said.never.groups.flatMap(({ head, rows, end }) => [wrap(head), ...rows.map(bullet), wrap(end)]),
          ),
        ]),
    section(said.free.head, facts(said.free.rows)),
    section(
      said.supply.head,
      said.supply.says.map((text) => wrap(text)),
    ),
    section(
      said.warranties.head,
      said.warranties.rows.map((text) => wrap(text)),
    ),
    ...(said.unknown.rows.length === 0
      ? []
      : [section(said.unknown.head, [wrap(said.unknown.says), ...facts(said.unknown.rows)])]),
    section(said.cautions.head, said.cautions.rows.map(bullet)),
    wrap(mail.reply.text),
    ...mail.closing.map((text) => wrap(text)),
    mail.sign.map((line) => wrap(line)).join('\n'),
  ]
  const end = ['-- ', ...[foot.why, foot.who.join(' ')].filter((text) => text !== '').map((t) => wrap(t))]
  return `${[...sections, end.join('\n')].join('\n\n')}\n`
}

const section = (head: string, lines: readonly string[]): string => [heading(head), ...lines].join('\n')

const kindText = ({ head, bounds, best, says }: NextSaid): string =>
  [
    wrap(`${head}:`),
    ...(bounds.length === 0 ? [] : [wrap(boundsText(bounds), '  ')]),
    ...best.map((part) => bullet([`${part.says}: ${part.gains}`, ...part.why].join(' '))),
    ...says.map((text) => wrap(text, '  ')),
  ].join('\n')
