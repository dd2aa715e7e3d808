import { partByPart } from '../core/ranking/partByPart.ts'
import { RANKING_EN } from '../words/en/ranking.ts'
import { sayPartByPart } from '../words/partByPart.ts'
import type { Shown } from './answerContext.ts'

/** Under the table: where buying down the list of single parts comes to less than the best bundle, and why. */
export const WhyNotPartByPart = ({ shown: { answer, figures } }: { shown: Shown }) => {
  const found = partByPart(answer.ranking, answer.inputs.shop.policy)
  if (found === undefined) return null
  return (
    <section id="part-by-part">
      <h2>{RANKING_EN.partByPart.head}</h2>
      <p>
        {sayPartByPart(found, answer.inputs.parts, figures).map((sentence, i) => (
          <>
            {i > 0 && ' '}
            {sentence.map(({ text, strong }) => (strong ? <b>{text}</b> : text))}
          </>
        ))}
      </p>
    </section>
  )
}
