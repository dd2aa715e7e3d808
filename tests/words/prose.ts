import type { Letter } from '../../src/words/answer/letter.ts'
import { joinPieces } from '../../src/words/say.ts'

/** Paragraphs of ours that are read as sentences: no names of parts, price lines, owner's words or builder's. */
export function proseOf(l: Letter): readonly string[] {
  const items = [...(l.roads?.items ?? []), ...(l.board?.items ?? [])]
  return [
    l.preheader,
    l.lead.answer,
    ...l.lead.more,
    ...(l.pick?.reason ?? []),
    l.pick?.grade?.says ?? '',
    ...(l.pick?.useful ?? []),
    l.reply.note,
    l.reply.text,
    ...(l.games?.intro ?? []),
    ...(l.games?.drawn ?? []),
    ...(l.games?.rows ?? []).flatMap((r) => [joinPieces(r.says), ...r.notes]),
    ...(l.games?.more ?? []),
    ...(l.price?.notes ?? []),
    ...items.flatMap((i) => i.says),
    ...(l.board?.more ?? []),
    ...(l.handsIn?.lead ?? []),
    ...(l.handsIn?.items ?? []),
    l.handsIn?.wayOut ?? '',
    ...(l.known?.grades ?? []).map((g) => `${g.word} ${g.says}`),
    ...(l.known?.more ?? []),
    l.foot.why,
    l.foot.loads,
  ].filter((s) => s !== '')
}

/** A sentence ends at a full stop, question or exclamation mark before a space or the end. */
export const sentencesOf = (paragraphs: readonly string[]): readonly string[] =>
  paragraphs.flatMap((p) => p.split(/(?<=[.?!])\s+/)).filter((s) => s !== '')

/** Words of a sentence; a figure is a word and its unit another, as somebody reads it out. */
export const wordsIn = (sentence: string): number =>
  sentence.split(/\s+/).filter((w) => /[\p{L}\d]/u.test(w)).length
